package main

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"strings"

	"evendrop/cmd/internal/bench"
)

//go:embed page
var files embed.FS

// part is one of the page's files.
func part(name string) string {
	text, err := files.ReadFile("page/" + name)
	if err != nil {
		panic(err) // it is embedded
	}
	return string(text)
}

// shown are the scripts of the screens, each before those that use it.
var shown = []string{
	"dom.js", "store.js", "hold.js", "files.js", "bench.js", "hands.js", "keypad.js", "ask.js", "cautions.js", "jobs.js", "read.js", "seen.js",
	"marks.js", "sheet.js", "main.js",
}

// screens is the script of the screens.
func screens() string {
	var all strings.Builder
	for _, name := range shown {
		all.WriteString(bare(part(name)))
	}
	return all.String()
}

// ofNoUse is what a script needs for those who read it only: a line's indent, one that is a remark
// or empty, and a remark at a line's end: one with no quote in it, since a text ends on its line,
// with one. No text in backquotes goes over a line's end.
var ofNoUse = regexp.MustCompile("(?m)^[ \t]*(//.*)?\n|^[ \t]+|[ \t]+//[^'\"`\n]*$")

// goesOn is a line that the next one may stand behind: nothing ends where it ends but a statement.
// One with a slash may hold a remark, and stays a line.
var goesOn = regexp.MustCompile(`(?m)^([^/\n]*[;{])\n`)

// bare is a script of the page as small as it is without being another.
func bare(script string) string {
	return goesOn.ReplaceAllString(ofNoUse.ReplaceAllString(script, ""), "$1")
}

// bareRunner is the toolchain's script the same way, under the lines that say whose it is.
func bareRunner(script string) string {
	whose, does, _ := strings.Cut(script, "\n\n")
	return whose + "\n\n" + bare(does)
}

// rules is what a page may do, besides running its own scripts.
type rules struct {
	scripts, styles []string // texts that stand in it
	more            string   // directives of a site
}

// policy is the rules as a content security policy: what is not named may not be done, and
// nothing may be asked for.
func (r rules) policy() string {
	return "default-src 'none'; script-src " + hashes(r.scripts) + " 'wasm-unsafe-eval'; style-src " + hashes(r.styles) +
		"; img-src data: blob:; frame-src blob:; connect-src 'none'; base-uri 'none'; form-action 'none'" + r.more
}

func hashes(texts []string) string {
	var list []string
	for _, text := range texts {
		sum := sha256.Sum256([]byte(text))
		list = append(list, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	return strings.Join(list, " ")
}

// packing is how the core stands in a page.
type packing struct {
	charset string
	text    func(data []byte) string
}

// A page in one file comes with no word about its charset but its own, so that its characters
// may be bytes. A host of a site says one, which is UTF-8 more often than not.
var (
	bytewise = packing{"windows-1252", wide}
	utf8     = packing{"utf-8", dense}
)

// single is the page in one file.
func single(core program) ([]byte, error) { return assembled(core, bytewise, "", "", "") }

// assembled is the page with the core in it, and of a site with what its head has besides,
// a script of its own, and what it may do besides.
func assembled(core program, as packing, head, script, more string) ([]byte, error) {
	style := plainStyle(part("style.css"))
	scripts := []string{plainScript(bareRunner(core.runner)), plainScript(bare(part("boot.js"))), plainScript(screens())}
	if script != "" {
		scripts = append(scripts, script)
	}
	sheet, err := sheetStyle()
	if err != nil {
		return nil, err
	}
	for _, text := range append(scripts, style) {
		if strings.Contains(strings.ToLower(text), "</s") {
			return nil, errors.New("a script or the style sheet would end its element: write <\\/ in it")
		}
	}
	var page strings.Builder
	fmt.Fprintf(&page, "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"%s\">\n"+
		"<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">\n"+
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1, viewport-fit=cover, interactive-widget=resizes-content\">\n"+
		"<meta name=\"generator\" content=\"%s\">\n<title>evendrop</title>\n%s<style>%s</style>\n</head>\n<body>\n%s",
		as.charset, rules{scripts, []string{style, sheet}, more}.policy(), escaped(core.version), head, style, plainHTML(part("page.html")))
	for _, text := range scripts {
		fmt.Fprintf(&page, "<script>%s</script>\n", text)
	}
	// the core comes last: the page is there, and takes keys, before it is read
	fmt.Fprintf(&page, "<script type=\"application/octet-stream\" id=\"core\" data-size=\"%d\" data-charset=\"%s\">%s</script>\n</body>\n</html>\n",
		len(core.packed), as.charset, as.text(core.packed))
	return []byte(page.String()), nil
}

// invented is a job small enough to see what style sheet a customer's sheet has.
const invented = `[engine]
stroke = 86
rod = 146
[[cylinder]]
number = 1
stops = [[-31.5, 24]]
`

var styled = regexp.MustCompile(`(?s)<style>(.*?)</style>`)

// sheetStyle is the style sheet of a customer's sheet, which the page shows in a frame that
// has the page's rules.
func sheetStyle() (string, error) {
	var c bench.Core
	var r bench.Response
	for _, request := range []bench.Request{
		{Action: bench.Open, Files: []bench.File{{Name: "job.toml", Text: invented}}}, {Action: bench.Sheet},
	} {
		text, err := json.Marshal(request)
		if err != nil {
			return "", err
		}
		r = bench.Response{}
		if err := json.Unmarshal(c.Do(text), &r); err != nil || r.Error != "" {
			return "", fmt.Errorf("no sheet to see its style sheet: %s %w", r.Error, err)
		}
	}
	found := styled.FindStringSubmatch(r.Page)
	if found == nil {
		return "", errors.New("a sheet has no style sheet of its own")
	}
	return found[1], nil
}
