package job

import (
	"fmt"
	"regexp"
	"strconv"
)

// kind is what a value of the job file is.
type kind int

const (
	textKind kind = iota
	numberKind
	truthKind
	dateKind
	listKind
	tableKind
)

// value is a value of the job file, and where it stands.
type value struct {
	key   string // that it was given to; a list's items have their list's
	keyAt int    // offset of the key
	at    int    // offset of the value
	kind  kind
	text  string  // of a text: without its quotes; of the rest: as written
	items []value // of a list
	table *table
	open  bool // a list that [[headers]] made, and more may add to
}

// wrong is a fault of the value: "stroke = "abc": expected ...".
func (v value) wrong(format string, args ...any) error {
	return faultf(v.at, "%s = %s: %s", shownKey(v.key), v.shown(), fmt.Sprintf(format, args...))
}

// shown is the value as a message shows it, cut short.
func (v value) shown() string {
	switch v.kind {
	case listKind:
		return "[...]"
	case tableKind:
		return "{...}"
	case textKind:
		return strconv.Quote(cut(v.text))
	}
	return cut(v.text)
}

// cut keeps the beginning of a long text.
func cut(s string) string {
	const most = 40
	if runes := []rune(s[:min(len(s), 4*(most+1))]); len(runes) > most {
		return string(runes[:most]) + "..."
	}
	return s
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]{1,40}$`)

// shownKey is a key as a message shows it.
func shownKey(key string) string {
	if bareKey.MatchString(key) {
		return key
	}
	return strconv.Quote(cut(key))
}

// origin is how a table came about; it settles who may add to it.
type origin int

const (
	byHeader origin = iota // a header of its own
	byPath                 // a header of a table inside it; its own may follow
	byDots                 // a dotted key; more dotted keys may follow
	byValue                // { ... }, complete
)

// table is a table of the job file, its values in the order of the file.
type table struct {
	name   string // as a message shows it: [engine]; "" is the top of the file
	at     int    // offset of its header
	origin origin
	values []value
	index  map[string]int // into values, by key
}

func newTable(name string, at int, by origin) *table {
	return &table{name: name, at: at, origin: by, index: map[string]int{}}
}

func (t *table) get(key string) (value, bool) {
	i, ok := t.index[key]
	if !ok {
		return value{}, false
	}
	return t.values[i], true
}

// has tells whether any of the keys is given.
func (t *table) has(keys ...string) bool {
	for _, key := range keys {
		if _, ok := t.index[key]; ok {
			return true
		}
	}
	return false
}

// put adds a value, or takes it in another's place.
func (t *table) put(v value) {
	if i, ok := t.index[v.key]; ok {
		t.values[i] = v
		return
	}
	t.index[v.key] = len(t.values)
	t.values = append(t.values, v)
}

// sub adds a table to the table.
func (t *table) sub(p part, name string, by origin) *table {
	inner := newTable(name, p.at, by)
	t.put(value{key: p.name, keyAt: p.at, at: p.at, kind: tableKind, table: inner})
	return inner
}

// missing is a fault of a table that lacks a key.
func (t *table) missing(key, example string) error {
	return faultf(t.at, "%s: %s is missing: type for example %s", t.name, key, example)
}
