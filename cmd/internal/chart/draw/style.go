package draw

import (
	"bytes"
	"fmt"
	"strings"
	"sync"
)

// ink is what a part of a picture is drawn with, on a light page and on a dark.
type ink struct{ light, dark string }

// The inks. Words stand 4.5 to 1 against the paper, lines and shapes 3 to 1
// (WCAG22 1.4.3, 1.4.11); grid and bands are only an aid and are fainter.
var (
	paper = ink{"#fcfbf8", "#15181c"}
	text  = ink{"#1c2127", "#ebe8e2"}
	quiet = ink{"#565d66", "#a9afb8"}
	grid  = ink{"#e2dfd8", "#2c3238"}
	band  = ink{"#e9dcc0", "#45391f"}
	zone  = ink{"#f5efe1", "#22201a"} // a band that fills much of a picture
	edge  = ink{"#8a6d2f", "#c6a765"}
	alarm = ink{"#a8281e", "#ff9486"}
	body  = ink{"#dfdcd5", "#363c43"} // a part of an engine
	metal = ink{"#c9c6be", "#525a62"} // one that lies on another

	seriesInks = []ink{
		{"#0d5f6b", "#67c7d3"}, {"#a3461b", "#f0a077"}, {"#5d3f93", "#c0a5ee"},
		{"#5b6410", "#c2ca62"}, {"#93276a", "#ee93c9"}, {"#32475f", "#a3bbd9"},
	}
)

// dashes tell the lines of series apart without colour.
var dashes = []string{"none", "9 4", "2.5 3", "10 3 2.5 3", "16 5", "5 3"}

// SeriesStyles is how many series can be told apart.
const SeriesStyles = 6

// A picture is Width units wide unless it says so. Font sizes are in the same units; the
// bold ones count as wider by Bold, for TextWidth.
const (
	Width     = 390.0
	TextSize  = 14.0
	TitleSize = 16.0
	SmallSize = 13.5
	Bold      = 1.14
)

// SeriesClass is the class of the n-th series' ink: stroke, fill or hollow.
func SeriesClass(kind string, n int) string { return fmt.Sprintf("%s%d", kind, n%len(seriesInks)) }

// DashClass is the class of the n-th series' dashes.
func DashClass(n int) string { return fmt.Sprintf("dash%d", n%len(dashes)) }

// Style is the style sheet of every picture, for a page that holds several too. It uses no
// variables, so viewers that know only plain style sheets show the light page.
func Style() string { return style() }

// style is written once for all pictures.
var style = sync.OnceValue(func() string {
	var s strings.Builder
	fmt.Fprintf(&s, "svg.ed{max-width:860px;color-scheme:light dark;font-family:system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans','DejaVu Sans',sans-serif;font-size:%gpx}svg.wide{max-width:1720px}svg.narrow{max-width:420px}"+
		".ed .text,.ed .quiet{font-size:%gpx}.ed .title{font-size:%gpx;font-weight:600}.ed .small{font-size:%gpx}.ed .strong{font-weight:600}"+
		".ed .m{text-anchor:middle}.ed .e{text-anchor:end}.ed .o{fill-rule:evenodd}"+
		".ed line,.ed path{fill:none;stroke-linejoin:round;stroke-linecap:butt}.ed .dot{stroke-linecap:round}"+
		".ed .axis,.ed .named{stroke-width:1.2}.ed .grid,.ed .fine{stroke-width:1}.ed .curve{stroke-width:2.2}"+
		".ed .bar,.ed .edge,.ed .member,.ed .tag,.ed .metal,.ed .was{stroke-width:1.4}.ed .edge{stroke-dasharray:6 3}.ed .was{stroke-dasharray:3 2}"+
		".ed .reach,.ed .upon{stroke-width:4}.ed .joint,.ed .thin,.ed .mark,.ed .middle,.ed .seam{stroke-width:1.6}.ed .heavy{stroke-width:2.4}"+
		".ed .slipped{stroke-width:4;stroke-dasharray:9 5}.ed .dismissed{stroke-width:1.6;stroke-dasharray:2 3}.ed .upon{paint-order:stroke}"+
		".ed .body{stroke:none}.ed .suspect{stroke-width:2.8}.ed .ghost{stroke-width:1.3;stroke-dasharray:2.6 1.8}",
		SmallSize, TextSize, TitleSize, SmallSize)
	for i, dash := range dashes {
		fmt.Fprintf(&s, ".ed .dash%d{stroke-dasharray:%s}", i, dash)
	}
	s.WriteString(inks(func(i ink) string { return i.light }))
	fmt.Fprintf(&s, "@media print{.ed .suspect{stroke:%s}.ed .accused{fill:%[1]s}}", text.light) // grey, red is paler than ink
	fmt.Fprintf(&s, "@media screen and (prefers-color-scheme:dark){%s}", inks(func(i ink) string { return i.dark }))
	return s.String()
})

// Unstyled is a picture without its style sheet, for a page that has it already.
func Unstyled(svg []byte) []byte {
	return bytes.Replace(svg, []byte("<style>"+Style()+"</style>\n"), nil, 1)
}

// inks are the rules that give the classes their colours.
func inks(of func(ink) string) string {
	var s strings.Builder
	fill := func(classes string, i ink) { fmt.Fprintf(&s, "%s{fill:%s}", under(classes), of(i)) }
	stroke := func(classes string, i ink) { fmt.Fprintf(&s, "%s{stroke:%s}", under(classes), of(i)) }
	fmt.Fprintf(&s, "svg.ed,.ed .text{fill:%s}", of(text))
	fill("quiet seen", quiet)
	fill("paper ground member tag ghost was middle", paper) // on a page the paper is left out, the ground of a sign is not
	fill("body", body)
	fill("metal", metal)
	fill("band", band)
	fill("zone", zone)
	fill("accused warn", alarm)
	stroke("grid", grid)
	stroke("named dismissed", quiet)
	stroke("axis fore joint slipped reach member tag ghost metal was middle", text)
	stroke("upon seam", paper) // upon: round words that stand upon lines
	stroke("edge", edge)
	stroke("suspect alarmed", alarm)
	for n, i := range seriesInks {
		stroke(fmt.Sprintf("stroke%d", n), i)
		fill(fmt.Sprintf("fill%d", n), i)
		fmt.Fprintf(&s, ".ed .hollow%d{fill:%s;stroke:%s}", n, of(paper), of(i))
	}
	return s.String()
}

// under lists class names as selectors inside the picture.
func under(classes string) string {
	fields := strings.Fields(classes)
	for i := range fields {
		fields[i] = ".ed ." + fields[i]
	}
	return strings.Join(fields, ",")
}
