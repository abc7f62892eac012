package geometry_test

import (
	"testing"

	"evendrop/geometry"
)

// Crank, rod and offset in mm; computed to 30 digits from the closed forms (METU
// Mechanisms, Soylemez, 7.2) and printed to 15. Tolerances are roundings: of
// heights near 200 mm, and in angles of those over a throw of 40.
func TestOffset(t *testing.T) {
	const length, angle = 1e-12 * mm, 1e-12 * deg
	for _, row := range []struct {
		throw, rod, offset geometry.Length
		tdc, bdc           geometry.Angle // degrees
		top, stroke        geometry.Length
		after, before      geometry.Length   // drops 30 deg after and before TDC
		bias               [3]geometry.Angle // degrees, of equal drop at 1, 5 and 10 mm
	}{
		{43, 143, 0, 0, 180, 186, 86,
			7.38640498562406, 7.38640498562406, [3]geometry.Angle{0, 0, 0}},
		{43, 143, 0.8, 0.246434220083282, 180.458371125485, 185.998279561936, 86.0014796131374,
			7.38164857148364, 7.39131166982502, [3]geometry.Angle{0.00133207269138212, 0.00680755237967156, 0.0140018935143582}},
		{43, 143, 5, 1.54039468646552, 182.865983982599, 185.932783553627, 86.0578617764364,
			7.35912097107975, 7.4195623514174, [3]geometry.Angle{0.00832543841740179, 0.0425467808864402, 0.0875100173175433}},
		{43, 143, 10, 3.08190418237577, 185.739170477267, 185.730988259902, 86.2322445492404,
			7.33758625142609, 7.45875944180334, [3]geometry.Angle{0.016650778835983, 0.0850909646867288, 0.175008838534724}},
		{40, 120, 20, 7.18075578145828, 194.47751218593, 158.745078663875, 81.2854117397271,
			6.94835005029752, 7.25104164562347, [3]geometry.Angle{0.0450416206963565, 0.230971679768942, 0.477204266434645}},
		{50, 140, 20, 6.0423284190541, 192.839588406904, 188.944436276912, 101.194792402991,
			8.83252663848455, 9.17880745513111, [3]geometry.Angle{0.0319098242531749, 0.16297872904541, 0.334955838734067}},
	} {
		s := must(t, 2*row.throw, row.rod, row.offset)
		mirrored := must(t, 2*row.throw, row.rod, -row.offset)
		near(t, row.tdc*deg, s.TDC(), angle, "TDC")
		near(t, row.bdc*deg, s.BDC(), angle, "BDC")
		near(t, row.top, s.Top(), length, "top")
		near(t, row.stroke, s.Stroke(), length, "stroke")
		near(t, row.after, s.Drop(30*deg), length, "drop after")
		near(t, row.before, s.Drop(-30*deg), length, "drop before")
		for k, drop := range []geometry.Length{1, 5, 10} {
			near(t, row.bias[k]*deg, s.EqualDropMidpoint(drop), angle, "midpoint")
			near(t, -row.bias[k]*deg, mirrored.EqualDropMidpoint(drop), angle, "midpoint, mirrored")
		}
		near(t, -row.tdc*deg, mirrored.TDC(), angle, "TDC, mirrored")
		near(t, (360-row.bdc)*deg, mirrored.BDC(), angle, "BDC, mirrored")
		near(t, row.before, mirrored.Drop(30*deg), length, "drop, mirrored")

		near(t, row.top, height(s, s.TDC()), length, "height at TDC")
		near(t, row.top-row.stroke, height(s, s.BDC()), length, "height at BDC")
		near(t, row.throw, s.Throw(), 0, "throw")
		near(t, row.rod, s.Rod(), 0, "rod")
		near(t, row.offset, s.Offset(), 0, "offset")
	}
}

// Stroke 86, rod 146 unless said; computed from the closed forms, to the digits
// given: half a unit of the last.
func TestComputed(t *testing.T) {
	car := must(t, 86, 146, 0)
	desaxe := must(t, 86, 146, 8)
	pin := must(t, 86, 146, -0.8)
	for _, row := range []struct {
		what            string
		got, want, last float64
	}{
		{"drop at 1 deg", car.Drop(1 * deg).Millimetres(), 0.008478, 5e-7},
		{"drop at 5 deg", car.Drop(5 * deg).Millimetres(), 0.211736, 5e-7},
		{"drop at 10 deg", car.Drop(10 * deg).Millimetres(), 0.844331, 5e-7},
		{"drop at 20 deg", car.Drop(-20 * deg).Millimetres(), 3.335832, 5e-7},
		{"drop at 30 deg", car.Drop(-30 * deg).Millimetres(), 7.352632, 5e-7},
		{"drop at 90 deg: past mid-stroke", car.Drop(90 * deg).Millimetres(), 49.475809, 5e-7},
		{"small petrol twin, 10 deg", must(t, 60, 112, 0).Drop(10 * deg).Millimetres(), 0.576986, 5e-7},
		{"diesel four, 10 deg", must(t, 92, 144, 0).Drop(10 * deg).Millimetres(), 0.920560, 5e-7},
		{"V8, 10 deg", must(t, 90, 152, 0).Drop(10 * deg).Millimetres(), 0.884643, 5e-7},
		{"motorcycle four, 10 deg", must(t, 42.5, 91, 0).Drop(10 * deg).Millimetres(), 0.397681, 5e-7},
		{"trunk single, 10 deg", must(t, 400, 800, 0).Drop(10 * deg).Millimetres(), 3.792647, 5e-7},
		{"crosshead single, 10 deg", must(t, 2000, 2000, 0).Drop(10 * deg).Millimetres(), 22.744930, 5e-7},
		// A rod of 10 km adds r^2 sin^2 / 2 l = 1e-5 mm, and rounds to 1e-9.
		{"pure cosine, 20 deg", must(t, 86, 1e7, 0).Drop(20 * deg).Millimetres(), 2.593217, 5e-7 + 1.1e-5},
		{"TDC, bore offset 8", desaxe.TDC().Degrees(), 2.4259, 5e-5},
		{"TDC, pin offset 0.8", pin.TDC().Degrees(), -0.2425, 5e-5},
		{"stroke, bore offset 8", desaxe.Stroke().Millimetres(), 86.1418, 5e-5},
		{"downstroke, bore offset 8", (desaxe.BDC() - desaxe.TDC()).Degrees(), 182.0287, 5e-5},
		{"midpoint at 1 mm, bore offset 8", desaxe.EqualDropMidpoint(1).Degrees(), 0.0129, 5e-5},
		{"midpoint at 20 mm, bore offset 8", desaxe.EqualDropMidpoint(20).Degrees(), 0.2870, 5e-5},
	} {
		near(t, row.want, row.got, row.last, row.what)
	}
}
