package geometry

// Length is a length in millimetres; write 81.4 * geometry.Millimetre.
type Length float64

// Units of length.
const (
	Millimetre Length = 1
	Inch       Length = 25.4
)

// Millimetres is l in millimetres.
func (l Length) Millimetres() float64 { return float64(l) }

// Inches is l in inches.
func (l Length) Inches() float64 { return float64(l / Inch) }

// String writes l in millimetres, with its unit: "81.4 mm".
func (l Length) String() string {
	return Decimal(float64(l), 9) + " mm"
}

// Slope is how fast the piston falls as the crank turns, in millimetres per
// radian: positive after TDC, negative before.
type Slope float64

// MillimetresPerDegree is s in millimetres per degree of crank.
func (s Slope) MillimetresPerDegree() float64 { return float64(s) * float64(Degree) }
