package toml

import (
	"slices"

	"evendrop/tdc/job/source"
)

// Field is a key that a table may have, and what takes its value.
type Field struct {
	key  string
	take func(Value) error
}

// Key is a field.
func Key(key string, take func(Value) error) Field { return Field{key, take} }

// Read gives each value of a table to its field, in the order of the fields. A
// key that is no field's is a fault. So is what a field refuses.
func (t *Table) Read(fields ...Field) error {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	if err := t.onlyKeys(keys); err != nil {
		return err
	}
	for _, f := range fields {
		v, ok := t.Get(f.key)
		if !ok {
			continue
		}
		if err := f.take(v); err != nil {
			return err
		}
	}
	return nil
}

// onlyKeys finds the first key that is none of keys.
func (t *Table) onlyKeys(keys []string) error {
	for _, v := range t.values {
		if !slices.Contains(keys, v.key) {
			return source.Faultf(v.keyAt, "%s: unknown key; %s", shownKey(v.key), source.Instead(v.key, keys))
		}
	}
	return nil
}

// One takes a table that is there once.
func One(read func(*Table) error) func(Value) error {
	return func(v Value) error {
		switch {
		case v.open:
			return source.Faultf(v.at, "[[%s]]: there is only one: write [%s]", v.key, v.key)
		case v.Kind != TableKind:
			return v.Wrong("expected a table: write [%s] on a line of its own", v.key)
		}
		return read(v.Table)
	}
}

// Many takes a table that may be there more than once.
func Many(read func(*Table) error) func(Value) error {
	return func(v Value) error {
		if v.Kind == TableKind {
			return source.Faultf(v.at, fewBrackets, v.key, v.key)
		}
		expected := "expected tables: write [[" + v.key + "]] on a line of its own"
		return v.Each(expected, func(item Value) error {
			if item.Kind != TableKind {
				return item.Wrong("%s", expected)
			}
			return read(item.Table)
		})
	}
}

// Inline takes a list of tables such as example, in braces, each of which has the keys.
func Inline(example string, keys []string, read func(*Table) error) func(Value) error {
	return func(v Value) error {
		return v.Each("expected a list such as ["+example+"]", func(item Value) error {
			if item.Kind != TableKind {
				return item.Wrong("expected %s", example)
			}
			if err := read(item.Table); err != nil {
				return err
			}
			for _, key := range keys {
				if !item.Table.Has(key) {
					return item.Table.Missing(key, example)
				}
			}
			return nil
		})
	}
}

const fewBrackets = "[%s]: there may be more than one: write [[%s]]"
