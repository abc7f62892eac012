package toml

import (
	"bytes"
	"fmt"
	"strings"

	"evendrop/tdc/job/source"
)

// An edit changes a place of a document's text and leaves every other byte as it was:
// what somebody wrote, its order and its comments stay. It returns the new text; the
// document is of the old one still.

// Tables are the tables of a name that may be there more than once, in their order.
func (d *Document) Tables(name string) (list []*Table) {
	v, _ := d.Root.Get(name)
	for _, item := range v.Items {
		if item.Table != nil {
			list = append(list, item.Table)
		}
	}
	return list
}

// Set writes a key that the table lacks below its others.
func (d *Document) Set(t *Table, key string, value Literal) []byte {
	return d.splice(d.below(t), 0, key+" = "+string(value)+source.LineEnd(d.data))
}

// Put is Set, or gives the key another value; what it was before stays as a comment above.
func (d *Document) Put(t *Table, key string, value Literal) []byte {
	v, has := t.Get(key)
	if !has {
		return d.Set(t, key, value)
	}
	from, to := v.at, d.endOf(v.at)
	was := bytes.ReplaceAll(d.data[from:to], []byte("\n"), []byte("\n# "))
	comment := fmt.Sprintf("# before: %s = %s%s", key, was, source.LineEnd(d.data))
	edited := d.splice(from, to-from, string(value))
	line := d.lineOf(v.keyAt)
	return append(edited[:line:line], append([]byte(comment), edited[line:]...)...)
}

// Unset makes a comment of a key of the table and its value, with why above it.
func (d *Document) Unset(t *Table, key, why string) []byte {
	v, has := t.Get(key)
	if !has {
		return d.data
	}
	return d.comment(d.lineOf(v.keyAt), d.lineEnd(d.endOf(v.at)), why)
}

// Append adds an item to the list of a key, and the key where the table lacks it. What is
// no list is an error.
func (d *Document) Append(t *Table, key string, item Literal) ([]byte, error) {
	v, has := t.Get(key)
	switch {
	case !has:
		return d.Set(t, key, List(item)), nil
	case v.Kind != ListKind || v.open || len(v.Items) == 0:
		return nil, v.Wrong("is not a list that another can be added to")
	}
	items := d.spans(v.at)
	last, end := items[len(items)-1].to, d.endOf(v.at)-1 // at the closing bracket
	behind, line := d.pastComma(last), d.lineOf(end)
	comma := behind > last
	switch {
	case line <= behind && comma: // the closing bracket is on their line
		return d.splice(end, 0, " "+string(item)), nil
	case line <= behind:
		return d.splice(last, 0, ", "+string(item)), nil
	}
	text := d.indentOf(items[len(items)-1].from) + string(item) + "," + source.LineEnd(d.data)
	edited := d.splice(line, 0, text)
	if !comma {
		edited = append(edited[:last:last], append([]byte(","), edited[last:]...)...)
	}
	return edited, nil
}

// pastComma is behind the comma that follows an item of a list, which ends at an offset and
// may have comments behind it; that offset where none follows.
func (d *Document) pastComma(end int) int {
	for at := end; ; at++ {
		switch d.data[at] {
		case ',':
			return at + 1
		case ']':
			return end
		case '#':
			at = d.lineEnd(at) - 1
		}
	}
}

// Withdraw makes a comment of the last item of a list that is written like item, and of
// the whole key where it was the only one. False is that there is none.
func (d *Document) Withdraw(t *Table, key string, item Literal, why string) ([]byte, bool) {
	v, has := t.Get(key)
	if !has || v.Kind != ListKind {
		return nil, false
	}
	items := d.spans(v.at)
	for i := len(items) - 1; i >= 0; i-- {
		from, to := items[i].from, items[i].to
		switch {
		case string(d.data[from:to]) != string(item):
			continue
		case len(items) == 1:
			return d.comment(d.lineOf(v.keyAt), d.lineEnd(d.endOf(v.at)), why), true
		case d.alone(from, to):
			return d.splice(d.lineOf(from), 0, "# "+why+": "), true
		case i > 0:
			from = items[i-1].to // with the comma before it
		default:
			to = items[1].from
		}
		cut := d.splice(from, to-from, "")
		line := d.lineOf(v.keyAt)
		comment := fmt.Sprintf("# %s: %s %s%s", why, key, item, source.LineEnd(d.data))
		return append(cut[:line:line], append([]byte(comment), cut[line:]...)...), true
	}
	return nil, false
}

// alone tells whether nothing but a comma and a comment stands beside an item on its line.
func (d *Document) alone(from, to int) bool {
	after := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(string(d.data[to:d.lineEnd(to)])), ","))
	return strings.TrimSpace(string(d.data[d.lineOf(from):from])) == "" && d.lineOf(from) == d.lineOf(to) && (after == "" || after[0] == '#')
}

// Strike makes comments of a table's lines, with why above them.
func (d *Document) Strike(t *Table, why string) []byte {
	return d.comment(d.lineOf(t.at), d.below(t), why)
}

// comment makes comments of whole lines, with why above them.
func (d *Document) comment(from, to int, why string) []byte {
	var out strings.Builder
	out.WriteString("# " + why + ":" + source.LineEnd(d.data))
	for line := range bytes.Lines(d.data[from:to]) {
		if text := strings.TrimSpace(string(line)); text != "" && text[0] != '#' {
			out.WriteString("# ")
		}
		out.Write(line)
	}
	return d.splice(from, to-from, out.String())
}

// splice is the text with some bytes at an offset replaced.
func (d *Document) splice(at, bytes int, text string) []byte {
	out := make([]byte, 0, len(d.data)+len(text))
	out = append(out, d.data[:at]...)
	if at == len(d.data) && at > 0 && d.data[at-1] != '\n' && text != "" {
		out = append(out, source.LineEnd(d.data)...)
	}
	out = append(out, text...)
	return append(out, d.data[at+bytes:]...)
}

// below is the offset below the last of a table's own lines.
func (d *Document) below(t *Table) int {
	end := d.lineEnd(t.at)
	for _, v := range t.values {
		if v.open || v.Table != nil && v.Table.origin != byValue || v.at < t.at {
			continue
		}
		end = max(end, d.lineEnd(d.endOf(v.at)))
	}
	return end
}

// lineOf is where the line begins that has an offset.
func (d *Document) lineOf(at int) int { return bytes.LastIndexByte(d.data[:at], '\n') + 1 }

// lineEnd is where the line ends that has an offset, its end with it.
func (d *Document) lineEnd(at int) int {
	if i := bytes.IndexByte(d.data[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(d.data)
}

// indentOf is what stands before an offset on its line, where that is blank.
func (d *Document) indentOf(at int) string {
	before := string(d.data[d.lineOf(at):at])
	if strings.TrimSpace(before) != "" {
		return "  "
	}
	return before
}

// span is where a value begins and ends.
type span struct{ from, to int }

// spans is where the items of a list stand that begins at an offset.
func (d *Document) spans(at int) (items []span) {
	for at++; ; {
		switch c := d.data[at]; {
		case c == ']':
			return items
		case c == '#':
			at = d.lineEnd(at)
		case strings.IndexByte(" \t\r\n,", c) >= 0:
			at++
		default:
			items = append(items, span{at, d.endOf(at)})
			at = items[len(items)-1].to
		}
	}
}

// endOf is where a value ends that begins at an offset; the text is known to be valid.
func (d *Document) endOf(at int) int {
	switch d.data[at] {
	case '"', '\'':
		return d.endOfText(at)
	case '[', '{':
		for at++; ; {
			switch d.data[at] {
			case ']', '}':
				return at + 1
			case '"', '\'', '[', '{':
				at = d.endOf(at)
			case '#':
				at = d.lineEnd(at)
			default:
				at++
			}
		}
	}
	if n := bytes.IndexAny(d.data[at:], ",]}#\r\n"); n >= 0 {
		return at + len(bytes.TrimRight(d.data[at:at+n], " \t"))
	}
	return len(d.data)
}

// endOfText is where a quoted text ends.
func (d *Document) endOfText(at int) int {
	quote := d.data[at : at+1]
	if three := bytes.Repeat(quote, 3); bytes.HasPrefix(d.data[at:], three) {
		quote = three
	}
	escapes := quote[0] == '"'
	for at += len(quote); !bytes.HasPrefix(d.data[at:], quote); at++ {
		if escapes && d.data[at] == '\\' {
			at++
		}
	}
	for at += len(quote); len(quote) == 3 && at < len(d.data) && d.data[at] == quote[0]; at++ { // """..."""" ends in the last of them
	}
	return at
}
