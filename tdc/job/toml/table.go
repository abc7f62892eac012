package toml

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/job/source"
)

// Kind is what a value of the job file is.
type Kind int

const (
	TextKind Kind = iota
	numberKind
	truthKind
	dateKind
	ListKind
	TableKind
)

// Value is a value of the job file, and where it stands.
type Value struct {
	key   string // that it was given to; a list's items have their list's
	keyAt int    // offset of the key
	at    int    // offset of the value
	Kind  Kind
	Text  string  // of a text: without its quotes; of the rest: as written
	Items []Value // of a list
	Table *Table
	open  bool // a list that [[headers]] made, and more may add to
}

// Wrong is a fault of the value: "stroke = "abc": expected ...".
func (v Value) Wrong(format string, args ...any) error {
	return source.Faultf(v.at, "%s = %s: %w", shownKey(v.key), v.shown(), fmt.Errorf(format, args...))
}

// Misplaced is a fault of the value's key, whatever the value: "radius: ...".
func (v Value) Misplaced(problem string) error {
	return source.Faultf(v.keyAt, "%s: %s", shownKey(v.key), problem)
}

// Foreign is a fault of a file that the value shows to be of another kind.
func (v Value) Foreign(problem error) error { return source.Faultf(v.at, "%w", problem) }

// shown is the value as a message shows it, cut short.
func (v Value) shown() string {
	switch v.Kind {
	case ListKind:
		return "[...]"
	case TableKind:
		return "{...}"
	case TextKind:
		return strconv.Quote(source.Cut(v.Text))
	}
	return source.Cut(v.Text)
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]{1,40}$`)

func shownKey(key string) string {
	if bareKey.MatchString(key) {
		return key
	}
	return strconv.Quote(source.Cut(key))
}

// origin is how a table came about; it settles who may add to it.
type origin int

const (
	byHeader origin = iota // a header of its own
	byPath                 // a header of a table inside it; its own may follow
	byDots                 // a dotted key; more dotted keys may follow
	byValue                // { ... }, complete
)

// Table is a table of the job file, its values in the order of the file.
type Table struct {
	name   string // as a message shows it: [engine]; "" is the top of the file
	at     int    // offset of its header
	origin origin
	values []Value
	index  map[string]int // into values, by key
}

func newTable(name string, at int, by origin) *Table {
	return &Table{name: name, at: at, origin: by, index: map[string]int{}}
}

// Get is the value of a key, and whether there is one.
func (t *Table) Get(key string) (Value, bool) {
	i, ok := t.index[key]
	if !ok {
		return Value{}, false
	}
	return t.values[i], true
}

// Has tells whether any of the keys is given.
func (t *Table) Has(keys ...string) bool {
	return slices.ContainsFunc(keys, func(key string) bool { _, ok := t.index[key]; return ok })
}

// put adds a value, or takes it in another's place.
func (t *Table) put(v Value) {
	if i, ok := t.index[v.key]; ok {
		t.values[i] = v
		return
	}
	t.index[v.key] = len(t.values)
	t.values = append(t.values, v)
}

func (t *Table) sub(p part, name string, by origin) *Table {
	inner := newTable(name, p.at, by)
	t.put(Value{key: p.name, keyAt: p.at, at: p.at, Kind: TableKind, Table: inner})
	return inner
}

// Wrong is a fault of the table: "[gauge]: ...".
func (t *Table) Wrong(format string, args ...any) error {
	return source.Faultf(t.at, "%s: %s", t.name, fmt.Sprintf(format, args...))
}

// Needs is a fault of a table that lacks a key of one of the examples, such as
// "number = 1"; nil when it has them all.
func (t *Table) Needs(examples ...string) error {
	for _, example := range examples {
		if key, _, _ := strings.Cut(example, " = "); !t.Has(key) {
			return t.Missing(key, example)
		}
	}
	return nil
}

// Missing is a fault of a table that lacks a key.
func (t *Table) Missing(key, example string) error {
	return t.Wrong("%s is missing: type for example %s", key, example)
}
