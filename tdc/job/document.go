package job

import (
	"bytes"
	"errors"

	"github.com/pelletier/go-toml/v2/unstable"
)

// document is a job file taken apart: what it says, and where.
type document struct {
	data  []byte
	root  *table
	count int // of items, in all of its lists
}

// newDocument takes a job file apart. What is no TOML, or is there twice, is a
// fault.
func newDocument(data []byte) (*document, error) {
	d := &document{data: data[:len(data):len(data)], root: newTable("", 0, byHeader)}
	var p unstable.Parser
	p.Reset(d.data)
	current := d.root
	for p.NextExpression() {
		var err error
		if current, err = d.add(current, p.Expression()); err != nil {
			return nil, err
		}
	}
	if bad, ok := errors.AsType[*unstable.ParserError](p.Error()); ok {
		return nil, syntaxFault(d.data, int(p.Range(bad.Highlight).Offset), bad.Message)
	}
	return d, nil
}

// add adds a line of the file, and returns the table that the next ones go to.
func (d *document) add(current *table, n *unstable.Node) (*table, error) {
	path, err := keyPath(n)
	if err != nil {
		return nil, err
	}
	switch n.Kind {
	case unstable.Table:
		return d.open(path)
	case unstable.ArrayTable:
		return d.openNext(path)
	}
	return current, d.set(current, path, n.Value())
}

// part is one name of a dotted key.
type part struct {
	name    string
	at, end int // offsets
}

// mostParts is how many names a dotted key may have: more than any job needs.
const mostParts = 16

func keyPath(n *unstable.Node) ([]part, error) {
	var path []part
	for it := n.Key(); it.Next(); {
		k := it.Node()
		at := int(k.Raw.Offset)
		if len(path) == mostParts {
			return nil, faultf(at, "more than %d names in one key: expected a key such as stroke or engine.stroke", mostParts)
		}
		path = append(path, part{name: string(k.Data), at: at, end: at + int(k.Raw.Length)})
	}
	return path, nil
}

// set gives a value to a key.
func (d *document) set(t *table, path []part, n *unstable.Node) error {
	t, err := d.dotted(t, path[:len(path)-1])
	if err != nil {
		return err
	}
	last := path[len(path)-1]
	if old, ok := t.get(last.name); ok {
		return d.twice(last.at, shownKey(last.name), old.keyAt)
	}
	at := last.end + bytes.IndexByte(d.data[last.end:], '=') + 1
	at += len(d.data[at:]) - len(bytes.TrimLeft(d.data[at:], " \t"))
	v, err := d.value(last, at, n)
	if err != nil {
		return err
	}
	v.at = at
	t.put(v)
	return nil
}

// value takes a value apart. The parser does not say where a list in a list
// begins: at the bracket before its first item, and of an empty one it must do
// that it is somewhere behind outer.
func (d *document) value(key part, outer int, n *unstable.Node) (value, error) {
	v := value{key: key.name, keyAt: key.at, at: int(n.Raw.Offset), kind: kinds[n.Kind], text: string(n.Data)}
	var err error
	switch n.Kind {
	case unstable.Array:
		v.items, err = d.items(key, outer, n)
		v.at = outer
		if len(v.items) > 0 {
			v.at = max(outer, bytes.LastIndexByte(d.data[:v.items[0].at], '['))
		}
	case unstable.InlineTable:
		v.table, err = d.inline(key, v.at, n)
	}
	return v, err
}

// mostItems is how many items the lists of one file may have: each takes room, long
// before it is known to be of any use.
const mostItems = 20_000

// items takes a list apart.
func (d *document) items(key part, outer int, n *unstable.Node) ([]value, error) {
	var items []value
	for it := n.Children(); it.Next(); {
		if len(items) == mostReadings {
			return nil, faultf(key.at, "%s: more than 3,000 items in one list: expected what somebody wrote by hand", shownKey(key.name))
		}
		if d.count++; d.count > mostItems {
			return nil, faultf(key.at, "%s: more than 20,000 items in the lists of one file: expected what somebody wrote by hand", shownKey(key.name))
		}
		item, err := d.value(key, outer, it.Node())
		if err != nil {
			return nil, err
		}
		items = append(items, item)
	}
	return items, nil
}

// inline takes { ... } apart.
func (d *document) inline(key part, at int, n *unstable.Node) (*table, error) {
	t := newTable(shownKey(key.name), at, byValue)
	for it := n.Children(); it.Next(); {
		path, err := keyPath(it.Node())
		if err == nil {
			err = d.set(t, path, it.Node().Value())
		}
		if err != nil {
			return nil, err
		}
	}
	return t, nil
}

var kinds = map[unstable.Kind]kind{
	unstable.String:        textKind,
	unstable.Integer:       numberKind,
	unstable.Float:         numberKind,
	unstable.Bool:          truthKind,
	unstable.Array:         listKind,
	unstable.InlineTable:   tableKind,
	unstable.LocalDate:     dateKind,
	unstable.LocalTime:     dateKind,
	unstable.LocalDateTime: dateKind,
	unstable.DateTime:      dateKind,
}
