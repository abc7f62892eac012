// Package formtest makes the JSON Schema of an answer out of the Go types that the
// answer is encoded from, and holds the file under testdata/schema to it. What is
// said of a field stands in the field's tag, beside its name in JSON:
//
//	Turn *string `json:"turn" enum:"forward|backward" doc:"null: read both ways"`
//
// A pointer may be null; an array of Go has as many items as it says.
package formtest

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"evendrop/cmd/internal/form"
)

// schema is the part of JSON Schema (2020-12) that answers need.
type schema struct {
	Dialect     string      `json:"$schema,omitempty"`
	Title       string      `json:"title,omitempty"`
	Description string      `json:"description,omitempty"`
	Type        any         `json:"type"` // a string, or several
	Enum        []any       `json:"enum,omitempty"`
	MinItems    int         `json:"minItems,omitempty"`
	MaxItems    int         `json:"maxItems,omitempty"`
	Items       *schema     `json:"items,omitempty"`
	Required    []string    `json:"required,omitempty"`
	Properties  form.Object `json:"properties,omitempty"`
	Open        bool        `json:"additionalProperties,omitempty"` // it holds what its kind has
}

// of is the schema of what a Go value is encoded to. A type that JSON Schema would
// not hold to anything, such as any, is an error.
func of(title, description string, answer any) (schema, error) {
	s, err := shape(reflect.TypeOf(answer))
	s.Dialect, s.Title, s.Description = "https://json-schema.org/draft/2020-12/schema", title, description
	return s, err
}

func shape(t reflect.Type) (schema, error) {
	if t == reflect.TypeFor[form.Finding]() {
		return ofFinding(), nil
	}
	switch t.Kind() {
	case reflect.Bool:
		return schema{Type: "boolean"}, nil
	case reflect.String:
		return schema{Type: "string"}, nil
	case reflect.Int, reflect.Int64, reflect.Uint64:
		return schema{Type: "integer"}, nil
	case reflect.Float64:
		return schema{Type: "number"}, nil
	case reflect.Pointer:
		s, err := shape(t.Elem())
		s.Type = []any{s.Type, "null"}
		return s, err
	case reflect.Array:
		items, err := shape(t.Elem())
		return schema{Type: "array", Items: &items, MinItems: t.Len(), MaxItems: t.Len()}, err
	case reflect.Slice:
		items, err := shape(t.Elem())
		return schema{Type: "array", Items: &items}, err
	case reflect.Struct:
		return object(t)
	}
	return schema{}, fmt.Errorf("%v: no schema is known for a %v", t, t.Kind())
}

// ofFinding is a finding: its kind and words, and then the numbers of that kind.
func ofFinding() schema {
	text := schema{Type: "string"}
	return schema{Type: "object", Required: []string{"kind", "words"}, Properties: form.Object{{Name: "kind", Value: text}, {Name: "words", Value: text}}, Open: true}
}

// object is a struct; what it embeds without a name counts as its own.
func object(t reflect.Type) (schema, error) {
	s := schema{Type: "object"}
	for _, field := range reflect.VisibleFields(t) {
		name, options, named := strings.Cut(field.Tag.Get("json"), ",")
		switch {
		case field.Anonymous && name == "":
			continue // its fields are visible themselves
		case name == "" || !field.IsExported():
			return s, fmt.Errorf("%v.%s has no name in JSON", t, field.Name)
		}
		is, err := described(field)
		if err != nil {
			return s, err
		}
		s.Properties = append(s.Properties, form.Field{Name: name, Value: is})
		if !named || options != "omitempty" {
			s.Required = append(s.Required, name)
		}
	}
	return s, nil
}

// described is a field's shape with what its tag says of it.
func described(field reflect.StructField) (schema, error) {
	s, err := shape(field.Type)
	if err != nil {
		return s, fmt.Errorf("%s: %w", field.Name, err)
	}
	s.Description = field.Tag.Get("doc")
	allowed, ok := field.Tag.Lookup("enum")
	if !ok {
		return s, nil
	}
	of := &s // of a list, each item is one of them
	if s.Items != nil {
		of = s.Items
	}
	of.Enum = listed(allowed)
	if field.Type.Kind() == reflect.Pointer {
		of.Enum = append(of.Enum, nil)
	}
	return s, nil
}

// listed is the values of a tag, numbers where they are written so.
func listed(allowed string) (values []any) {
	for text := range strings.SplitSeq(allowed, "|") {
		if number, err := strconv.Atoi(text); err == nil {
			values = append(values, number)
		} else {
			values = append(values, text)
		}
	}
	return values
}
