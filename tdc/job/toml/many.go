package toml

import "evendrop/tdc/job/source"

// One takes a table that is there once.
func One(read func(*Table) error) func(Value) error {
	return func(v Value) error {
		switch {
		case v.open:
			return source.Faultf(v.at, "[[%s]]: there is only one: write [%s]", v.Key, v.Key)
		case v.Kind != TableKind:
			return v.Wrong("expected a table: write [%s] on a line of its own", v.Key)
		}
		return read(v.Table)
	}
}

// Many takes a table that may be there more than once.
func Many(read func(*Table) error) func(Value) error {
	return func(v Value) error {
		if v.Kind == TableKind {
			return source.Faultf(v.at, fewBrackets, v.Key, v.Key)
		}
		expected := "expected tables: write [[" + v.Key + "]] on a line of its own"
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
