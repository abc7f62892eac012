package crank

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"

	"github.com/stretchr/testify/require"
)

// invented are sets of marks to be drawn, none of a real engine.
func invented() map[string][]Mark {
	flywheel := []Mark{
		{Name: "Cam lock flats", Body: "cam", Off: 0.5, Half: 1, Limit: 2, State: doc.Within, Says: "0.5° late"},
		{Name: "Crank wheel gap", Body: "flywheel", Off: 2.9, Half: 0.4, Limit: 1.5, State: doc.Outside, Suspect: true, Says: "2.9° late", Nominal: -84, HasPlace: true},
		{Name: "Locking pin hole", Body: "flywheel", Off: 2.8, Half: 0.4, Limit: 1, State: doc.Outside, Suspect: true, Says: "2.8° late"},
		{Name: "Pulley notch", Body: "pulley", Off: 0.1, Half: 0.4, Limit: 2, State: doc.Within, Says: "0.1° late"},
	}
	tooth := []Mark{
		{Name: "Inlet cam", Body: "inlet cam", Off: 17.1, Half: 1, Limit: 2, State: doc.Outside, Suspect: true, Says: "17.1° late, one tooth"},
		{Name: "Exhaust cam", Body: "exhaust cam", Off: 0.4, Half: 1, Limit: 2, State: doc.Within, Says: "0.4° late"},
		{Name: "Locking pin hole", Body: "flywheel", Off: 0.2, Half: 0.4, Limit: 1, State: doc.Within, Says: "0.2° late"},
		{Name: "Pulley notch", Body: "pulley", Off: 0.1, Half: 0.4, Limit: 2, State: doc.Within, Says: "0.1° late"},
	}
	repaired := slices.Clone(flywheel)
	for i, now := range []float64{0.4, 0.3, 0.2, 0.1} {
		was := repaired[i]
		repaired[i].Was = &Was{Off: was.Off, Half: was.Half, State: was.State, Says: strings.Replace("was "+was.Says, " late", "", 1)}
		repaired[i].Off, repaired[i].State, repaired[i].Suspect = now, doc.Within, false
		repaired[i].Says = fmt.Sprintf("%.1f° late", now)
	}
	six := append(slices.Clone(flywheel),
		Mark{Name: "Inlet cam edge", Body: "inlet cam", Off: -1.9, Half: 0.6, Limit: 2, State: doc.TooClose, Says: "1.9° early"},
		Mark{Name: "Damper line", Body: "pulley", Off: -3.4, Half: 0.5, Limit: 1, State: doc.Outside, Says: "3.4° early"})
	long := slices.Clone(flywheel)
	for i := range long {
		long[i].Name = strings.Repeat(long[i].Name+" as the book has it, ", 8)[:200]
		long[i].Body += strings.Repeat(" of the engine in the corner", 4)
	}
	foreign := slices.Clone(flywheel)
	for i, name := range []string{"علامة عمود الكامات مع اسم طويل جدا لا يتسع له القوس", "שן גלגל הארכובה", "クランク軸の固定穴の位置を示す印", "標記"} {
		foreign[i].Name = name
	}
	foreign[1].Body, foreign[2].Body = "גלגל תנופה", "גלגל תנופה"
	zero := slices.Clone(flywheel)
	for i := range zero {
		zero[i].Off, zero[i].State, zero[i].Suspect, zero[i].Says = 0, doc.Within, false, "0.0°"
	}
	far := slices.Clone(tooth)
	far[0].Off, far[0].Says = 120, "120.0° late"
	far[3].Off, far[3].Says, far[3].State = -40, "40.0° early", doc.Outside
	return map[string][]Mark{
		"flywheel": flywheel, "tooth": tooth, "repaired": repaired, "one": {flywheel[2]}, "two": flywheel[1:3], "six": six,
		"long": long, "foreign": foreign, "zero": zero, "far": far, "five": six[:5],
		"early": {
			{Name: "Pin hole", Body: "flywheel", Off: -2.2, Half: 0.3, Limit: 1, State: doc.Outside, Suspect: true, Says: "2.2° early"},
			{Name: "Timing line of the pulley", Body: "pulley", Off: -1.2, Half: 0.9, Limit: 1.5, State: doc.TooClose, Says: "1.2° early"},
			{Name: "Gap", Off: 0.3, Half: 0.2, State: doc.Unjudged, Says: "0.3° late"},
		},
	}
}

var look = flag.String("look", "", "folder for pages of the invented sets, to be looked at")

// With -args -look DIR pages are written that show every invented set as on a desk, on a
// phone and on paper.
func TestLook(t *testing.T) {
	if *look == "" {
		t.Skip("no folder")
	}
	head := `<!doctype html><meta charset="utf-8"><meta name="color-scheme" content="light dark"><style>` + draw.Style() +
		`body{margin:8px;font:14px sans-serif}div{display:inline-block;vertical-align:top;margin:0 12px 12px 0}</style>`
	desk, phone := head, head
	for _, name := range slices.Sorted(maps.Keys(invented())) {
		p := Picture{Title: name, Description: "Invented.", Marks: invented()[name]}
		if name == "tooth" {
			p.Tooth = 360.0 / 21
		}
		svg, err := p.SVG()
		require.NoError(t, err)
		desk += fmt.Sprintf(`<div style="width:460px">%s<p>%s</div>`, draw.Unstyled(svg), p.Caption())
		phone += fmt.Sprintf(`<div style="width:340px">%s</div>`, draw.Unstyled(svg))
	}
	require.NoError(t, os.WriteFile(filepath.Join(*look, "desk.html"), []byte(desk), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(*look, "phone.html"), []byte(phone), 0o644))
}
