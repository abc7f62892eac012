package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// moved is what a program reads from motion.
type moved struct {
	motionOfOne
	Engines []motionOfOne `json:"engines"`
}

type motionOfOne struct {
	Engine struct {
		Stroke     float64  `json:"stroke_mm"`
		Rod        float64  `json:"rod_mm"`
		PinOffset  *float64 `json:"pin_offset_mm"`
		Travel     float64  `json:"travel_mm"`
		TDC        float64  `json:"tdc_after_throw_along_bore_deg"`
		Downstroke float64  `json:"downstroke_deg"`
		MeanSpeed  *float64 `json:"mean_speed_m_per_s"`
	} `json:"engine"`
	Rows []struct {
		Angle  float64  `json:"angle_deg"`
		Drop   float64  `json:"drop_mm"`
		Slope  float64  `json:"slope_mm_per_deg"`
		Speed  *float64 `json:"speed_m_per_s"`
		Volume *float64 `json:"volume_cm3"`
		Swept  *float64 `json:"swept_since_tdc_cm3"`
		Cosine float64  `json:"pure_cosine_drop_mm"`
		AtBDC  float64  `json:"rise_from_bdc_mm"`
	} `json:"rows"`
	Dwell []struct {
		Within float64 `json:"within_mm"`
		Before float64 `json:"before_deg"`
		After  float64 `json:"after_deg"`
		Total  float64 `json:"total_deg"`
		Cosine float64 `json:"pure_cosine_total_deg"`
		AtBDC  float64 `json:"bdc_total_deg"`
	} `json:"dwell"`
	Liquid *struct {
		Volume  float64  `json:"volume_ml"`
		FullAt  *float64 `json:"full_at_deg"`
		Outcome string   `json:"outcome"`
		Ratio   *float64 `json:"compression_ratio_with_it"`
	} `json:"liquid"`
}

// move runs motion and reads its JSON.
func move(t *testing.T, line string) moved {
	t.Helper()
	code, out, errs := ev(append([]string{"motion", "--as", "json"}, strings.Fields(line)...)...)
	require.Equal(t, answered, code, errs)
	require.Empty(t, errs)
	var got moved
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	return got
}

// dropAt is the drop in the row of an angle.
func (m motionOfOne) dropAt(t *testing.T, angle float64) float64 {
	t.Helper()
	for _, r := range m.Rows {
		if r.Angle == angle {
			return r.Drop
		}
	}
	t.Fatalf("no row at %g", angle)
	return 0
}

// Drops of invented engines and of one with a rod without end, from the closed
// form of the in-line slider-crank (KMODDL; Soylemez 7.2), to the digits given:
// half a unit of the last.
func TestMotionDrops(t *testing.T) {
	for _, c := range []struct{ stroke, rod, angle, want float64 }{
		{86, 146, 1, 0.008478}, {86, 146, 5, 0.211736}, {86, 146, 10, 0.844331}, {86, 146, 20, 3.335832},
		{86, 146, 30, 7.352632}, {86, 146, 90, 49.475809},
		{60, 112, 10, 0.576986}, {92, 144, 10, 0.920560}, {90, 152, 10, 0.884643}, {42.5, 91, 10, 0.397681},
		{400, 800, 10, 3.792647}, {2000, 2000, 10, 22.744930},
	} {
		got := move(t, fmt.Sprintf("--stroke %g --rod %g --from %g --to %g --by %g", c.stroke, c.rod, -c.angle, c.angle, c.angle))
		require.Len(t, got.Rows, 3)
		for _, angle := range []float64{-c.angle, c.angle} {
			require.InDelta(t, c.want, got.dropAt(t, angle), 5e-7, "%v", c)
		}
		require.Zero(t, got.Rows[1].Angle)
	}
	got := move(t, "--stroke 86 --rod 146 --from 0 --to 20 --by 20")
	require.InDelta(t, 2.593217, got.Rows[1].Cosine, 5e-7)
}

// A stroke from 0 to 180 deg, from the same closed form, printed to 0.001 mm.
func TestMotionWholeStroke(t *testing.T) {
	got := move(t, "--stroke 86 --rod 146 --from 0 --to 180 --by 10")
	want := []float64{0, .844, 3.336, 7.353, 12.700, 19.125, 26.329, 33.996, 41.809, 49.476, 56.743, 63.410, 69.329, 74.404, 78.580, 81.831, 84.149, 85.538, 86}
	require.Len(t, got.Rows, len(want))
	for i, w := range want {
		require.InDelta(t, w, got.Rows[i].Drop, 5e-4)
		require.InDelta(t, 86-got.dropAt(t, 180-10*float64(i)), got.Rows[i].AtBDC, 1e-9) // in line: the same curve, from its other end
	}
}

// Fractions of the stroke by rod over throw, computed to 18 digits from the
// closed form; at 90 deg (R + 1 - sqrt(R^2 - 1)) / 2. Tolerance: roundings.
func TestMotionFractionOfStroke(t *testing.T) {
	for _, c := range []struct{ ratio, angle, want float64 }{
		{3, 5, 0.00253579486902422174}, {4, 5, 0.00237746503459848544}, {6, 5, 0.00221917279738577591},
		{3, 30, 0.087967352332876666}, {3.5, 75, 0.438553966392292554}, {4.5, 120, 0.792059783418038286},
		{4, 90, (5 - math.Sqrt(15)) / 2}, {5, 90, (6 - math.Sqrt(24)) / 2},
	} {
		got := move(t, fmt.Sprintf("--stroke 2 --rod %g --from 0 --to %g --by %g", c.ratio, c.angle, c.angle))
		require.InDelta(t, c.want, got.Rows[1].Drop/2, 1e-14)
	}
}

// An engine manual's timing mark, in inches: US NAVFAC P-8-631-34, 0.2032 in
// below top centre is 19 deg. Stroke and rod are inferred from the engine, not
// printed there: one unit of the last digit.
func TestMotionInInches(t *testing.T) {
	for _, line := range []string{"--stroke 6in --rod 12in", "--stroke 6 --rod 12 --unit in"} {
		got := move(t, line+" --from -19 --to 0 --by 19")
		require.InDelta(t, 0.2032*25.4, got.Rows[0].Drop, 1e-4*25.4)
	}
}

// Khurmi and Gupta, Theory of Machines, ch. 15 (a variant of the worked example):
// crank 0.3 m, rod 1.5 m, 150 rpm, 3.49 m/s at 40 deg. The book's formula is
// approximate and leaves out 0.0048; recomputed exactly 3.497028.
func TestMotionSpeed(t *testing.T) {
	got := move(t, "--stroke 600 --rod 1500 --rpm 150 --from -40 --to 40 --by 40")
	require.InDelta(t, 3.49, *got.Rows[2].Speed, 0.005+0.0048)
	require.InDelta(t, 3.497028, *got.Rows[2].Speed, 5e-7)
	require.InDelta(t, -3.497028, *got.Rows[0].Speed, 5e-7) // rising before TDC
	require.InDelta(t, 2*0.6*150/60, *got.Engine.MeanSpeed, 1e-12)
	require.Nil(t, move(t, "--stroke 600 --rod 1500").Rows[0].Speed)
}

// Dwells by the root of the closed form on either side, to the digits given; the
// small-angle form 2 sqrt(2 h / (r (1 + r/l))) gives 2.1721 for the first.
func TestMotionDwell(t *testing.T) {
	for _, c := range []struct {
		line               string
		within, want, last float64
	}{
		{"--stroke 86 --rod 146", 0.01, 2.1721, 5e-5},
		{"--stroke 86 --rod 146", 0.1, 6.8704, 5e-5},
		{"--stroke 86 --rod 146", 1, 21.7741, 5e-5},
		{"--stroke 42.5 --rod 91", 0.01, 3.1655, 5e-5},
		{"--stroke 400 --rod 800", 0.01, 1.0249, 5e-5},
		{"--stroke 86 --rod 120", 0.1, 6.71, 5e-3},
		{"--stroke 86 --rod 172", 0.1, 6.99, 5e-3},
		{"--stroke 86 --rod 215", 0.1, 7.14, 5e-3},
	} {
		got := move(t, fmt.Sprintf("%s --within %g", c.line, c.within))
		require.Len(t, got.Dwell, 1)
		d := got.Dwell[0]
		require.InDelta(t, c.within, d.Within, 1e-15)
		require.InDelta(t, c.want, d.Total, c.last, "%v", c)
		require.InDelta(t, -c.want/2, d.Before, c.last, "%v", c)
		require.InDelta(t, c.want/2, d.After, c.last, "%v", c)
	}
	small := 2 * math.Sqrt(2*0.01/(43*(1+43.0/146))) * 180 / math.Pi
	require.InDelta(t, 2.1721, small, 5e-5)

	got := move(t, "--stroke 86 --rod 146 --within 0.1 --within 43")
	require.InDelta(t, 9.30, got.Dwell[0].AtBDC, 5e-3)
	require.InDelta(t, 7.82, got.Dwell[0].Cosine, 5e-3)
	require.InDelta(t, 81.5318, got.Dwell[1].After, 5e-5) // half the stroke comes before 90 deg
	require.InDelta(t, 180, got.Dwell[1].Cosine, 1e-9)    // and at 90 deg in cosine motion
	// Small drops: BDC over TDC is sqrt((1 + r/l) / (1 - r/l)), 1.354.
	require.InDelta(t, math.Sqrt((146.0+43)/(146-43)), got.Dwell[0].AtBDC/got.Dwell[0].Total, 2e-3)
	require.Equal(t, []float64{0.01, 0.1, 1}, withins(move(t, "--stroke 86 --rod 146")))
	require.Equal(t, []float64{0.1, 1, 2.54}, withins(move(t, "--stroke 86 --rod 146 --within 0.1,1 --within 0.1in")))
}

func withins(m moved) (out []float64) {
	for _, d := range m.Dwell {
		out = append(out, math.Round(d.Within*1e9)/1e9)
	}
	return out
}

// Offsets: computed from asin(e/(l+r)), asin(e/(l-r)) and the travel between
// (Soylemez 7.2), to the digits given. Bore offset counts one way, pin offset
// the other. Equal drops lie about a midpoint that is late for e > 0.
func TestMotionOffset(t *testing.T) {
	got := move(t, "--stroke 86 --rod 146 --bore-offset 8 --within 1;20")
	require.InDelta(t, 2.4259, got.Engine.TDC, 5e-5)
	require.InDelta(t, 86.1418, got.Engine.Travel, 5e-5)
	require.InDelta(t, 182.0287, got.Engine.Downstroke, 5e-5)
	require.InDelta(t, 0.0129, (got.Dwell[0].Before+got.Dwell[0].After)/2, 5e-5)
	require.InDelta(t, 0.2870, (got.Dwell[1].Before+got.Dwell[1].After)/2, 5e-5)
	require.Nil(t, move(t, "--stroke 86 --rod 146").Engine.PinOffset, "not stated is null")

	got = move(t, "--stroke 86 --rod 146 --pin-offset 0.8")
	require.InDelta(t, -0.2425, got.Engine.TDC, 5e-5)
	require.InDelta(t, 0.8, *got.Engine.PinOffset, 0)
	require.Equal(t, got.Rows, move(t, "--stroke 86 --rod 146 --bore-offset -0.8").Rows)

	// About BDC, by a height written down here: 30 deg either side of the lowest
	// point, which is later than 180 deg.
	got = move(t, "--stroke 80 --rod 120 --bore-offset 20 --from -30 --to 30 --by 30")
	height := func(phi float64) float64 {
		return 40*math.Cos(phi) + math.Sqrt(120*120-math.Pow(40*math.Sin(phi)-20, 2))
	}
	lowest := math.Pi + math.Asin(20.0/80)
	for i, angle := range []float64{-30, 0, 30} {
		want := height(lowest+angle*math.Pi/180) - height(lowest)
		require.InDelta(t, want, got.Rows[i].AtBDC, 1e-12) // roundings of 160 mm
	}

	// Computed to 30 digits, printed to 15; roundings of 160 mm.
	got = move(t, "--stroke 80 --rod 120 --bore-offset 20")
	require.InDelta(t, 6.94835005029752, got.dropAt(t, 30), 1e-12)
	require.InDelta(t, 7.25104164562347, got.dropAt(t, -30), 1e-12)
}

// Lash of 0.05 mm, always turned forward, seen as dwell: the gauge shows h before
// TDC and h + 0.05 after it (computed from the closed form, to 0.001 deg).
func TestMotionLash(t *testing.T) {
	got := move(t, "--stroke 86 --rod 146 --within 0.1,0.15,1,1.05,2,2.05")
	for i, want := range []float64{0.386, 0.135, 0.097} {
		require.InDelta(t, want, (got.Dwell[2*i].Before+got.Dwell[2*i+1].After)/2, 5e-4)
	}
}

// Slope is what drop is the sum of: Simpson's rule over steps of 1 deg, whose
// error is h^4/180 of a fourth derivative under 100 mm/rad^5 over 0.5 rad: 3e-8.
func TestMotionSlopeSumsToDrop(t *testing.T) {
	got := move(t, "--stroke 86 --rod 146 --bore-offset 8 --from 0 --to 30 --by 1")
	require.Len(t, got.Rows, 31)
	sum := 0.0
	for i, r := range got.Rows {
		weight := []float64{2, 4}[i%2]
		if i == 0 || i == 30 {
			weight = 1
		}
		sum += weight * r.Slope / 3
	}
	require.InDelta(t, got.Rows[30].Drop, sum, 1e-7)
}

// Volumes: Heywood (2.6, number from memory) as a ratio to the clearance volume, written down here
// by itself; roundings of 550 cm3.
func TestMotionVolume(t *testing.T) {
	const bore, stroke, rod, ratio = 86.0, 86.0, 146.0, 10.5
	got := move(t, "--stroke 86 --rod 146 --bore 86 --compression 10.5 --from -180 --to 180 --by 45")
	swept := math.Pi / 4 * bore * bore * stroke / 1000
	for _, r := range got.Rows {
		require.InDelta(t, swept/(ratio-1)*heywood(r.Angle, ratio, 2*rod/stroke), *r.Volume, 1e-9)
		require.InDelta(t, *r.Volume-swept/(ratio-1), *r.Swept, 1e-9)
	}
	bare := move(t, "--stroke 86 --rod 146 --bore 86")
	require.Nil(t, bare.Rows[0].Volume, "the space above the piston is unknown without a ratio")
	require.NotNil(t, bare.Rows[0].Swept)
	require.Nil(t, move(t, "--stroke 86 --rod 146").Rows[0].Swept)
}

// heywood is V/Vc = 1 + (rc - 1)/2 (R + 1 - cos u - sqrt(R^2 - sin^2 u)).
func heywood(degrees, compression, ratio float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return 1 + (compression-1)/2*(ratio+1-cos-math.Sqrt(ratio*ratio-sin*sin))
}

// The angle at which liquid fills the space, by halving an interval of Heywood's
// volume: 50 halvings of 180 deg leave 2e-13, and roundings of the volume over
// its slope 1e-9.
func TestMotionLiquid(t *testing.T) {
	clearance := math.Pi / 4 * 86 * 86 * 86 / 1000 / 9.5
	for _, ml := range []float64{53, 60, 100, 300, 550} {
		low, high := -180.0, 0.0
		for range 50 {
			if middle := (low + high) / 2; clearance*heywood(middle, 10.5, 2*146.0/86) > ml {
				low = middle
			} else {
				high = middle
			}
		}
		got := move(t, fmt.Sprintf("--stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid %g", ml)).Liquid
		require.NotNil(t, got)
		require.InDelta(t, low, *got.FullAt, 1e-8, "%g ml", ml)
		require.Equal(t, "full before TDC", got.Outcome)
		require.Nil(t, got.Ratio)
		require.InDelta(t, ml, got.Volume, 1e-9)
	}
	little := move(t, "--stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid 20").Liquid
	require.Nil(t, little.FullAt)
	require.Equal(t, "not full at TDC", little.Outcome)
	require.InDelta(t, (clearance*10.5-20)/(clearance-20), *little.Ratio, 1e-9)
	much := move(t, "--stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid 600").Liquid
	require.Nil(t, much.FullAt)
	require.Equal(t, "full even at BDC", much.Outcome)
	require.Nil(t, move(t, "--stroke 86 --rod 146").Liquid)
}

// With an offset: volumes by the height of a pin found from two circles, halved
// likewise.
func TestMotionLiquidWithOffset(t *testing.T) {
	const r, l, e, bore = 40.0, 120.0, 20.0, 70.0
	area := math.Pi / 4 * bore * bore
	height := func(phi float64) float64 { return r*math.Cos(phi) + math.Sqrt(l*l-math.Pow(r*math.Sin(phi)-e, 2)) }
	top, bottom := math.Asin(e/(l+r)), math.Pi+math.Asin(e/(l-r))
	clearance := area * (height(top) - height(bottom)) / 1000 / (9.0 - 1)
	low, high := bottom-2*math.Pi, top
	for range 60 {
		if middle := (low + high) / 2; clearance+area*(height(top)-height(middle))/1000 > 50 {
			low = middle
		} else {
			high = middle
		}
	}
	got := move(t, "--stroke 80 --rod 120 --bore-offset 20 --bore 70 --compression 9 --liquid 50").Liquid
	require.InDelta(t, (low-top)*180/math.Pi, *got.FullAt, 1e-8)
}
