package job

// field is a key that a table may have, and what takes its value.
type field struct {
	key  string
	take func(value) error
}

// read gives each value of a table to its field, in the order of the fields. A
// key that is no field's is a fault.
func (t *table) read(fields ...field) error {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	if err := t.onlyKeys(keys); err != nil {
		return err
	}
	for _, f := range fields {
		v, ok := t.get(f.key)
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
func (t *table) onlyKeys(keys []string) error {
	known := map[string]bool{}
	for _, key := range keys {
		known[key] = true
	}
	for _, v := range t.values {
		if !known[v.key] {
			return faultf(v.keyAt, "%s: unknown key; %s", shownKey(v.key), instead(v.key, keys))
		}
	}
	return nil
}
