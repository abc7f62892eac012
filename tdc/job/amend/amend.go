// Package amend says what a job file's text becomes when something that was seen at the
// bench is added to it, or taken back: all else in it stays byte for byte, and what is
// taken back stays as a comment.
package amend

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"

	"evendrop/tdc/job/record"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
)

// Edit is a job file's next text from the one that it has.
type Edit func(text []byte) ([]byte, error)

// Seen adds an item to one of a cylinder's lists: stops, dwell or views.
func Seen(cylinder int, list string, item toml.Literal) Edit {
	return ofCylinder(cylinder, func(d *toml.Document, t *toml.Table) ([]byte, error) { return d.Append(t, list, item) })
}

// Unseen takes an item out of a cylinder's list again.
func Unseen(cylinder int, list string, item toml.Literal) Edit {
	return ofCylinder(cylinder, func(d *toml.Document, t *toml.Table) ([]byte, error) {
		text, there := d.Withdraw(t, list, item, undone)
		if !there {
			return nil, fmt.Errorf("%s %s is no longer in the job file", list, item)
		}
		return text, nil
	})
}

// Of gives a cylinder a key that it lacks.
func Of(cylinder int, key string, value toml.Literal) Edit {
	return ofCylinder(cylinder, func(d *toml.Document, t *toml.Table) ([]byte, error) { return d.Set(t, key, value), nil })
}

// undone stands before what was taken back.
const undone = "undone"

func ofCylinder(number int, edit func(*toml.Document, *toml.Table) ([]byte, error)) Edit {
	return in("cylinder", "number", strconv.Itoa(number), edit)
}

// in edits the last table of a name whose key has a value, as written without quotes: of
// what was read in several sets that is the last.
func in(tables, key, value string, edit func(*toml.Document, *toml.Table) ([]byte, error)) Edit {
	return func(text []byte) ([]byte, error) {
		mark, text := marked(text)
		d, err := toml.Parse(text, Several...)
		if err != nil {
			return nil, err
		}
		for _, t := range slices.Backward(d.Tables(tables)) {
			if v, has := t.Get(key); has && v.Text == value {
				text, err := edit(d, t)
				return append(mark, text...), err
			}
		}
		return nil, fmt.Errorf("the job file has no [[%s]] with %s = %s any more", tables, key, value)
	}
}

// Several are the tables of a job file that may be there more than once.
var Several = []string{"cylinder", "joint", "mark", "lobe", "photo"}

// marked parts a text from its byte order mark.
func marked(text []byte) (mark, rest []byte) {
	const bom = "\ufeff"
	if rest, has := bytes.CutPrefix(text, []byte(bom)); has {
		return []byte(bom), rest
	}
	return nil, text
}

// With adds tables below all others.
func With(tables []byte) Edit {
	return func(text []byte) ([]byte, error) {
		end := source.LineEnd(text)
		whole := bytes.Clone(text)
		if len(text) > 0 && text[len(text)-1] != '\n' {
			whole = append(whole, end...)
		}
		return append(whole, bytes.ReplaceAll(tables, []byte("\n"), []byte(end))...), nil
	}
}

// Without makes a comment of the last table of a name whose key has a value, such as a
// [[mark]] of some name.
func Without(tables, key, value string) Edit {
	return in(tables, key, value, func(d *toml.Document, t *toml.Table) ([]byte, error) { return d.Strike(t, undone), nil })
}

// Key is a key and its value.
type Key struct {
	Name  string
	Value toml.Literal
}

// Keyed gives the table that has a name keys, in the place of what it said before, which
// stays as a comment.
func Keyed(tables, name string, keys ...Key) Edit {
	edits := make([]Edit, len(keys))
	for i, k := range keys {
		edits[i] = in(tables, "name", name, func(d *toml.Document, t *toml.Table) ([]byte, error) { return d.Put(t, k.Name, k.Value), nil })
	}
	return Together(edits...)
}

// All gives every table that has a name keys, as Keyed gives them to the last: what was read in
// several sets has a table for each.
func All(tables, name string, keys ...Key) Edit {
	return each(keys, func(text []byte, k Key) ([]byte, error) {
		for n := 0; ; n++ {
			d, err := toml.Parse(text, Several...)
			if err != nil {
				return nil, err
			}
			list := slices.DeleteFunc(d.Tables(tables), func(t *toml.Table) bool {
				v, has := t.Get("name")
				return !has || v.Text != name
			})
			if n == len(list) {
				return text, nil
			}
			text = d.Put(list[n], k.Name, k.Value)
		}
	})
}

// Together makes one edit after another.
func Together(edits ...Edit) Edit {
	return func(text []byte) (edited []byte, err error) {
		for _, edit := range edits {
			if text, err = edit(text); err != nil {
				return nil, err
			}
		}
		return text, nil
	}
}

// Table gives a table that is there once, such as [gauge], keys, and makes it where there is
// none. What a key said before stays as a comment; one without a value is taken out, as one.
func Table(name string, keys ...Key) Edit {
	return each(keys, func(text []byte, k Key) ([]byte, error) { return ofTable(text, name, k) })
}

// each makes an edit a key, one after the other.
func each(keys []Key, edit func(text []byte, k Key) ([]byte, error)) Edit {
	return func(text []byte) (edited []byte, err error) {
		mark, text := marked(text)
		for _, k := range keys {
			if text, err = edit(text, k); err != nil {
				return nil, err
			}
		}
		return append(mark, text...), nil
	}
}

func ofTable(text []byte, name string, k Key) ([]byte, error) {
	d, err := toml.Parse(text, Several...)
	if err != nil {
		return nil, err
	}
	v, has := d.Root.Get(name)
	switch {
	case has && v.Table == nil:
		return nil, v.Wrong("expected a table: write [%s] on a line of its own", name)
	case has && k.Value != "":
		return d.Put(v.Table, k.Name, k.Value), nil
	case has:
		return d.Unset(v.Table, k.Name, undone), nil
	case k.Value == "":
		return text, nil
	}
	var w toml.Writer
	w.Table(name)
	w.Key(k.Name, k.Value, "")
	return With(w.Bytes())(text)
}

// Sheet gives [sheet] keys, and makes it where there is none. A key without a value is taken
// out, as a comment, and so is the whole table where nothing is left in it.
func Sheet(keys ...Key) Edit {
	return each(keys, ofSheet)
}

func ofSheet(text []byte, k Key) ([]byte, error) {
	d, err := toml.Parse(text, Several...)
	if err != nil {
		return nil, err
	}
	if v, has := d.Root.Get("sheet"); has && v.Table != nil && k.Value == "" && alone(v.Table, k.Name) {
		return d.Strike(v.Table, undone), nil
	}
	return ofTable(text, "sheet", k)
}

// alone tells whether a sheet has no other key than this.
func alone(sheet *toml.Table, key string) bool {
	return sheet.Has(key) && !slices.ContainsFunc(record.Keys, func(other string) bool { return other != key && sheet.Has(other) })
}
