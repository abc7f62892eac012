package job

import (
	"strconv"

	"evendrop/tdc/job/toml"
)

// Parse is the reading of a job file without a file system, for tests.
var Parse = parse

// ParseKnownGood is the reading of a known-good file without a file system.
var ParseKnownGood = parseKnownGood

// WithoutLines is a job that does not know which lines its marks are from.
func (j Job) WithoutLines() Job {
	j.markLines, j.jointLines = nil, nil
	return j
}

// Outline is every key of a job file with its text, if that is what it has, as
// the document holds them.
func Outline(data []byte) (map[string]string, error) {
	doc, err := toml.Parse(data)
	if err != nil {
		return nil, err
	}
	lines := map[string]string{}
	outline("", toml.Value{Kind: toml.TableKind, Table: doc.Root}, lines)
	return lines, nil
}

func outline(path string, v toml.Value, lines map[string]string) {
	switch v.Kind {
	case toml.TextKind:
		lines[path] = "text " + v.Text
	case toml.TableKind:
		lines[path] = "table"
		for _, inner := range v.Table.Values {
			outline(path+"."+strconv.Quote(inner.Key), inner, lines)
		}
	case toml.ListKind:
		lines[path] = "list"
		for i, item := range v.Items {
			outline(path+"["+strconv.Itoa(i)+"]", item, lines)
		}
	default:
		lines[path] = "other"
	}
}
