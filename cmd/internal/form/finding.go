package form

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// Finding is a finding for JSON: its kind, its words and its numbers, angles in
// degrees and lengths in millimetres, as their names say.
type Finding struct {
	Finding finding.Finding
	Words   string
}

// Findings is findings for JSON, worded one by one.
func Findings(list []finding.Finding, word func(finding.Finding) string) []Finding {
	out := make([]Finding, 0, len(list))
	for _, f := range list {
		out = append(out, Finding{f, word(f)})
	}
	return out
}

// MarshalJSON writes the kind, the words, and then the numbers and names of that kind. An
// error is of a value that JSON has no way to write.
func (f Finding) MarshalJSON() ([]byte, error) {
	return append(Object{{"kind", f.Finding.Kind()}, {"words", f.Words}}, fields(reflect.ValueOf(f.Finding))...).MarshalJSON()
}

// Object is a JSON object whose fields keep their order.
type Object []Field

// Field is one of them.
type Field struct {
	Name  string
	Value any
}

// MarshalJSON writes the fields in their order. An error is of a value that JSON has no way
// to write.
func (o Object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, f := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := encoder.Encode(f.Name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := encoder.Encode(f.Value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// fields is a struct's fields by their JSON names, those of embedded structs among
// them.
func fields(s reflect.Value) (list Object) {
	for i := range s.NumField() {
		of := s.Type().Field(i)
		name, options, _ := strings.Cut(of.Tag.Get("json"), ",")
		switch {
		case options == "omitempty" && s.Field(i).IsZero():
		case of.Anonymous:
			list = append(list, fields(s.Field(i))...)
		case name != "" && name != "-":
			list = append(list, Field{name, plain(s.Field(i))})
		}
	}
	return list
}

// plain is a value as JSON has it: an angle in degrees, a number that is none as null.
func plain(v reflect.Value) any {
	if a, is := v.Interface().(geometry.Angle); is {
		return Finite(math.Round(a.Degrees()*1e9) / 1e9)
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return nil
		}
		return plain(v.Elem())
	case reflect.Struct:
		return fields(v)
	case reflect.Slice:
		list := []any{}
		for i := range v.Len() {
			list = append(list, plain(v.Index(i)))
		}
		return list
	case reflect.Float64:
		return Finite(v.Float())
	}
	return v.Interface()
}
