package job

import (
	"bytes"
	"errors"

	"github.com/pelletier/go-toml/v2/unstable"
)

// document is a job file taken apart: what it says, and where.
type document struct {
	data []byte
	root *table
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
	path := keyPath(n)
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

func keyPath(n *unstable.Node) []part {
	var path []part
	for it := n.Key(); it.Next(); {
		k := it.Node()
		at := int(k.Raw.Offset)
		path = append(path, part{name: string(k.Data), at: at, end: at + int(k.Raw.Length)})
	}
	return path
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
	t.put(v)
	return nil
}

// value takes a value apart; at is where it begins.
func (d *document) value(key part, at int, n *unstable.Node) (value, error) {
	v := value{key: key.name, keyAt: key.at, at: at, kind: kinds[n.Kind], text: string(n.Data)}
	switch n.Kind {
	case unstable.Array:
		for it := n.Children(); it.Next(); {
			item, err := d.value(key, d.start(it.Node(), at), it.Node())
			if err != nil {
				return value{}, err
			}
			v.items = append(v.items, item)
		}
	case unstable.InlineTable:
		v.table = newTable(shownKey(key.name), at, byValue)
		for it := n.Children(); it.Next(); {
			if err := d.set(v.table, keyPath(it.Node()), it.Node().Value()); err != nil {
				return value{}, err
			}
		}
	}
	return v, nil
}

// start is where an item of a list begins. The parser does not say it of a list
// in a list; it begins at the bracket before its first item, and an empty one
// is taken to begin where the outer one does.
func (d *document) start(n *unstable.Node, outer int) int {
	if n.Kind != unstable.Array {
		return int(n.Raw.Offset)
	}
	if first := n.Child(); first.Valid() {
		return max(outer, bytes.LastIndexByte(d.data[:d.start(first, outer)], '['))
	}
	return outer
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
