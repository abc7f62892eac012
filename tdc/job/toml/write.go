package toml

import (
	"fmt"
	"strconv"
	"strings"

	"evendrop/tdc/job/source"
)

// Writer writes a TOML file as somebody would type it: a key a line, comments beside,
// and keys that are commented out, to be filled in.
type Writer struct {
	Column int // where a comment beside a key begins, in characters from 0, if there is room; 0: after a blank
	text   strings.Builder
}

// Literal is a value as TOML writes it, or the part of one.
type Literal string

// Quote is a text of any characters; what is no text in UTF-8 becomes the replacement
// character. What cannot be seen, or steers the writing, is written by its number.
func Quote(text string) Literal {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case strconv.IsPrint(r):
			b.WriteRune(r)
		case r > 0xffff:
			fmt.Fprintf(&b, `\U%08x`, r)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
	}
	b.WriteByte('"')
	return Literal(b.String())
}

// Number is a finite number in plain decimals, all of them.
func Number(x float64) Literal { return Literal(strconv.FormatFloat(x+0, 'f', -1, 64)) }

// List is a list on one line.
func List(items ...Literal) Literal {
	texts := make([]string, len(items))
	for i, item := range items {
		texts[i] = string(item)
	}
	return Literal("[" + strings.Join(texts, ", ") + "]")
}

// Say writes a comment, a line for each of its own.
func (w *Writer) Say(format string, args ...any) {
	for line := range strings.SplitSeq(strings.TrimSuffix(fmt.Sprintf(format, args...), "\n"), "\n") {
		w.line(strings.TrimRight("# "+source.OneLine(line), " "))
	}
}

// Blank leaves a line empty.
func (w *Writer) Blank() { w.line("") }

// Table begins a table below an empty line.
func (w *Writer) Table(name string) { w.line("\n[" + name + "]") }

// Next begins the next of several tables of one name below an empty line.
func (w *Writer) Next(name string) { w.line("\n[[" + name + "]]") }

// Key writes a key and its value, and a comment beside it; "" of none.
func (w *Writer) Key(key string, value Literal, comment string) {
	text := key + " = " + string(value)
	if comment != "" {
		text = fmt.Sprintf("%-*s # %s", max(w.Column-1, 0), text, source.OneLine(comment))
	}
	w.line(text)
}

// KeyIf is Key, or a key commented out when it is not given.
func (w *Writer) KeyIf(given bool, key string, value Literal, comment string) {
	if !given {
		key = "# " + key
	}
	w.Key(key, value, comment)
}

func (w *Writer) line(text string) { w.text.WriteString(text + "\n") }

// Bytes is the file.
func (w *Writer) Bytes() []byte { return []byte(w.text.String()) }
