package adjust

func sq(x float64) float64 { return x * x }
