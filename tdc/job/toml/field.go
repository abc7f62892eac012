package toml

import "evendrop/tdc/job/source"

// Field is a key that a table may have, and what takes its value.
type Field struct {
	key  string
	take func(Value) error
}

// Key is a field.
func Key(key string, take func(Value) error) Field { return Field{key, take} }

// Read gives each value of a table to its field, in the order of the fields. A
// key that is no field's is a fault.
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
	known := map[string]bool{}
	for _, key := range keys {
		known[key] = true
	}
	for _, v := range t.values {
		if !known[v.Key] {
			return source.Faultf(v.keyAt, "%s: unknown key; %s", shownKey(v.Key), source.Instead(v.Key, keys))
		}
	}
	return nil
}
