// Package doc is an answer as a document: what is said, in its order, and
// nothing of how it looks. Its writers, doc/text and doc/html, put the same
// document on a terminal, into Markdown and into a browser.
//
// A document holds text as it was typed: a writer escapes it for where it goes
// and makes it legible.
package doc

// Document is blocks in the order that a reader wants them.
type Document []Block

// Block is one of Heading, Paragraph, List, Table, Facts, Figure, Verbatim, and of those
// of a sheet: Banner, Numbers, Beside and Photo.
type Block interface{ block() }

// Heading begins a section.
type Heading struct {
	Level int // 1 is the document's title, 2 a section, 3 a part of one
	Text  string
	State State // of what it says, where that was judged
}

// Role is what a paragraph or a list is to its reader.
type Role int

// The roles.
const (
	Plain   Role = iota
	Finding      // what was found: read first, and largest
	Warning      // what weakens an answer
	Caution      // what can hurt somebody
	Quiet        // an explanation that can be left out
	Never        // what must not be done
)

// Paragraph is sentences.
type Paragraph struct {
	Role Role
	Text string
}

// List is things that belong together, each a sentence or two.
type List struct {
	Role    Role
	Ordered bool
	Items   []string
	States  []State // one an item, or none
}

// State is how an item came out.
func (l List) State(item int) State { return stateOf(l.States, item) }

// State is how a thing that was judged came out.
type State int

// The states of a row.
const (
	Unjudged State = iota
	Within
	Outside
	TooClose
	Doubtful // a reading that does not fit
)

// Table is rows of text under a header. The first column names the row; a last
// column of words is set like the first.
type Table struct {
	Caption string // for who cannot see that the rows are a table
	Header  []string
	Rows    [][]string
	States  []State // one a row, or none
}

// State is how a row came out.
func (t Table) State(row int) State { return stateOf(t.States, row) }

func stateOf(states []State, n int) State {
	if n < len(states) {
		return states[n]
	}
	return Unjudged
}

// Add appends a row.
func (t *Table) Add(state State, cells ...string) {
	for len(t.States) < len(t.Rows) {
		t.States = append(t.States, Unjudged)
	}
	t.Rows, t.States = append(t.Rows, cells), append(t.States, state)
}

// Facts is things and what is said of each.
type Facts []Fact

// Fact is one of them.
type Fact struct{ What, Is string }

// Figure is a picture. SVG has no style sheet of its own: a page has one for all
// its figures. Text is the same in characters, for a terminal; a figure without it
// is left out there.
type Figure struct {
	SVG     []byte
	Caption string
	Text    string
}

// Verbatim is lines that keep their breaks and blanks.
type Verbatim string

func (Banner) block()    {}
func (Numbers) block()   {}
func (Beside) block()    {}
func (Photo) block()     {}
func (Heading) block()   {}
func (Paragraph) block() {}
func (List) block()      {}
func (Table) block()     {}
func (Facts) block()     {}
func (Figure) block()    {}
func (Verbatim) block()  {}

// Title begins the document; nothing without a text.
func (d *Document) Title(text string) { d.heading(1, text) }

// Section begins a section; nothing without a text.
func (d *Document) Section(text string) { d.heading(2, text) }

// Part begins a part of a section; nothing without a text.
func (d *Document) Part(text string) { d.heading(3, text) }

func (d *Document) heading(level int, text string) {
	if text != "" {
		*d = append(*d, Heading{Level: level, Text: text})
	}
}

// Say adds a paragraph; nothing without a text.
func (d *Document) Say(text string) { d.SayAs(Plain, text) }

// SayAs adds a paragraph with a role; nothing without a text.
func (d *Document) SayAs(role Role, text string) {
	if text != "" {
		*d = append(*d, Paragraph{role, text})
	}
}

// List adds a list; nothing without items.
func (d *Document) List(items []string) { d.ListAs(Plain, items) }

// ListAs adds a list with a role; nothing without items.
func (d *Document) ListAs(role Role, items []string) {
	if len(items) > 0 {
		*d = append(*d, List{Role: role, Items: items})
	}
}

// Table adds a table; nothing without rows.
func (d *Document) Table(t Table) {
	if len(t.Rows) > 0 {
		*d = append(*d, t)
	}
}

// Add adds blocks as they are.
func (d *Document) Add(blocks ...Block) { *d = append(*d, blocks...) }
