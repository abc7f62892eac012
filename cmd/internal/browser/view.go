package browser

// Size is a screen in CSS pixels.
type Size struct {
	Width, Height int
	Scale         float64 // device pixels a CSS pixel; 0: 1
	Mobile        bool    // a phone's: touched, its viewport as the page asks
}

// Size makes the screen.
func (p *Page) Size(s Size) error {
	if s.Scale == 0 {
		s.Scale = 1
	}
	p.touch = s.Mobile
	args := params{"width": s.Width, "height": s.Height, "deviceScaleFactor": s.Scale, "mobile": s.Mobile}
	if err := p.call("Emulation.setDeviceMetricsOverride", args, nil); err != nil {
		return err
	}
	return p.call("Emulation.setTouchEmulationEnabled", params{"enabled": s.Mobile}, nil)
}

// Media is what a style sheet asks about.
type Media struct {
	Print, Dark, ForcedColours bool
}

// Media changes what style sheets are told. What is printed is told so whatever is said here.
func (p *Page) Media(m Media) error {
	pick := func(yes bool, one, other string) string {
		if yes {
			return one
		}
		return other
	}
	type feature struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	}
	return p.call("Emulation.setEmulatedMedia", params{"media": pick(m.Print, "print", ""), "features": []feature{
		{"prefers-color-scheme", pick(m.Dark, "dark", "light")},
		{"forced-colors", pick(m.ForcedColours, "active", "none")},
	}}, nil)
}

// Throttle makes the processor so many times slower; 1: as it is.
func (p *Page) Throttle(times float64) error {
	return p.call("Emulation.setCPUThrottlingRate", params{"rate": times}, nil)
}

// Screenshot is all of the page, from its top to its end, as a PNG.
func (p *Page) Screenshot() ([]byte, error) {
	var metrics struct {
		Size struct{ Width, Height float64 } `json:"cssContentSize"`
	}
	if err := p.call("Page.getLayoutMetrics", nil, &metrics); err != nil {
		return nil, err
	}
	clip := params{"x": 0, "y": 0, "width": metrics.Size.Width, "height": metrics.Size.Height, "scale": 1}
	return p.data("Page.captureScreenshot", params{"format": "png", "captureBeyondViewport": true, "clip": clip})
}

// Paper is a sheet, inches.
type Paper struct {
	Name          string
	Width, Height float64
}

// The sheets that people print on.
var (
	A4     = Paper{"A4", 210 / 25.4, 297 / 25.4}
	Letter = Paper{"Letter", 8.5, 11}
)

// PDF prints the page as people do who change nothing: margins as the page asks, no
// backgrounds.
func (p *Page) PDF(on Paper) ([]byte, error) {
	return p.data("Page.printToPDF", params{"paperWidth": on.Width, "paperHeight": on.Height})
}

// data is what a call answers as bytes.
func (p *Page) data(method string, args params) ([]byte, error) {
	var got struct{ Data []byte }
	err := p.call(method, args, &got)
	return got.Data, err
}
