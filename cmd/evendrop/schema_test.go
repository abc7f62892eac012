package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// schema is the part of JSON Schema (2020-12) that the schemas use. Decoding
// refuses any other keyword, so that they promise nothing unchecked.
type schema struct {
	Dialect     string            `json:"$schema"`
	Title       string            `json:"title"`
	Description string            `json:"description"`
	Type        types             `json:"type"`
	Required    []string          `json:"required"`
	Properties  map[string]schema `json:"properties"`
	Items       *schema           `json:"items"`
	Enum        []any             `json:"enum"`
	MinItems    *int              `json:"minItems"`
	MaxItems    *int              `json:"maxItems"`
	Open        bool              `json:"additionalProperties"` // it holds what its kind has
}

// types is one type or a list of them.
type types []string

func (t *types) UnmarshalJSON(data []byte) error {
	var one string
	if json.Unmarshal(data, &one) == nil {
		*t = types{one}
		return nil
	}
	return json.Unmarshal(data, (*[]string)(t))
}

func openSchema(t *testing.T, name string) schema {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "schema", name+".json"))
	require.NoError(t, err)
	defer file.Close()
	decoder := json.NewDecoder(file)
	decoder.DisallowUnknownFields()
	var s schema
	require.NoError(t, decoder.Decode(&s))
	require.Equal(t, "https://json-schema.org/draft/2020-12/schema", s.Dialect)
	return s
}

func typeOf(v any) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case bool:
		return "boolean"
	case string:
		return "string"
	case float64:
		if v == math.Trunc(v) {
			return "integer"
		}
		return "number"
	case []any:
		return "array"
	}
	return "object"
}

// check is what is wrong with a value. A property that the schema does not
// describe is wrong too: the schemas leave a program to come room for more, and
// this one none.
func (s schema) check(at string, v any) []string {
	is := typeOf(v)
	if !slices.Contains(s.Type, is) && !(is == "integer" && slices.Contains(s.Type, "number")) {
		return []string{fmt.Sprintf("%s is of type %s, not %v", at, is, s.Type)}
	}
	if s.Enum != nil && !slices.Contains(s.Enum, v) {
		return []string{fmt.Sprintf("%s is %v, none of %v", at, v, s.Enum)}
	}
	var wrong []string
	switch v := v.(type) {
	case []any:
		if s.MinItems != nil && len(v) < *s.MinItems || s.MaxItems != nil && len(v) > *s.MaxItems {
			wrong = append(wrong, fmt.Sprintf("%s has %d items", at, len(v)))
		}
		for i, item := range v {
			wrong = append(wrong, s.Items.check(fmt.Sprintf("%s[%d]", at, i), item)...)
		}
	case map[string]any:
		for _, key := range s.Required {
			if _, has := v[key]; !has {
				wrong = append(wrong, at+"."+key+" is missing")
			}
		}
		for key, value := range v {
			if property, has := s.Properties[key]; has {
				wrong = append(wrong, property.check(at+"."+key, value)...)
			} else if !s.Open {
				wrong = append(wrong, at+"."+key+" is described nowhere")
			}
		}
	}
	return wrong
}

// complete refuses a schema that does not say the type of something.
func (s schema) complete(t *testing.T, at string) {
	require.NotEmpty(t, s.Type, at)
	require.Equal(t, slices.Contains(s.Type, "array"), s.Items != nil, at)
	require.Equal(t, slices.Contains(s.Type, "object"), s.Properties != nil, at)
	if s.Items != nil {
		s.Items.complete(t, at+"[]")
	}
	for _, key := range slices.Sorted(maps.Keys(s.Properties)) {
		s.Properties[key].complete(t, at+"."+key)
	}
	for _, key := range s.Required {
		require.Contains(t, s.Properties, key, at)
	}
}

// jsonOf is what a command line answers, as JSON.
func jsonOf(t *testing.T, args ...string) any {
	t.Helper()
	code, out, errs := ev(append(args, "--as", "json")...)
	require.Equal(t, answered, code, errs)
	var v any
	require.NoError(t, json.Unmarshal([]byte(out), &v))
	return v
}

// otherEvidence is a job with everything that the examples lack: stops, dwells and
// views, several cylinders, a zero that they share, and a mark whose nominal is unknown.
func otherEvidence(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	readings := "angle,depth\n325,9.8\n331,7.2\n337,4.5\n343,2.5\n349,1\n11,1\n17,2.5\n23,4.5\n29,7.2\n35,9.8\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	text := "[engine]\nstroke = 86\nrod = 146\nthrow_limit = 1\ncrown_limit = 0.5\n[gauge]\nsame_zero = true\n" +
		"[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\nstops = [[-30, 30]]\ndwell = [{ still = -6, moves = 9, turn = \"forward\" }, { still = 6, moves = -9, turn = \"backward\" }]\n" +
		"[[cylinder]]\nnumber = 2\nthrow = 0\nreadings = \"r.csv\"\n" +
		"[[cylinder]]\nnumber = 3\nthrow = 0\nviews = [{ before = 345, after = 15, turn = \"forward\" }]\n" +
		"[[mark]]\nname = \"gap\"\non = \"crank wheel\"\nread = 276\nshould_be = \"unknown\"\nlimit = 1\n"
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// asked is a command line and the schema of its answer.
type asked struct {
	schema string
	args   []string
}

// allAsked is every command that answers in JSON, with what else may be asked of it.
func allAsked(t *testing.T) []asked {
	t.Helper()
	lesson := filepath.Join(t.TempDir(), "lesson")
	code, _, errs := ev("rehearse", lesson, "--seed", "20", "--lash", "0.08", "--typo", "1", "--pin", "2", "--lobe", "inlet", "--lift-lost", "0.25")
	require.Equal(t, answered, code, errs)
	class, answers := filepath.Join(t.TempDir(), "class"), filepath.Join(t.TempDir(), "answers.csv")
	code, _, errs = ev("rehearse", "--class", "3", class, "--seed", "7")
	require.Equal(t, answered, code, errs)
	require.NoError(t, os.WriteFile(answers, []byte("name,engine,tdc,within,pin\nBen,1,3.3,0.3,within\nAnn,2,7,,\n"), 0o600))
	captures := t.TempDir()
	before, after := invented(t, captures, "before.csv", 0, 0), invented(t, captures, "after.csv", 18, 0)
	other := otherEvidence(t)
	return []asked{
		{"find", []string{"find", diagnostician}},
		{"find", []string{"find", other}},
		{"find", []string{"find", diagnostician, "--against", "../../examples/diagnostician/known-good.toml"}},
		{"keep", []string{"keep", "../../examples/diagnostician/healthy-1.toml", "../../examples/diagnostician/healthy-2.toml", filepath.Join(t.TempDir(), "k.toml")}},
		{"keep", []string{"keep", diagnostician, filepath.Join(t.TempDir(), "k.toml")}},
		{"find", []string{"find", "../../examples/builder/job.toml", "--trials", "1000"}},
		{"find", []string{"find", lesson + "/job.toml"}},
		{"find", []string{"find", "--readings", "../../examples/diagnostician/cylinder-1.csv", "--pin", "5"}},
		{"motion", []string{"motion", "--stroke", "86", "--rod", "146"}},
		{"motion", []string{"motion", "--stroke", "86", "--rod", "146,150", "--pin-offset", "0.5", "--bore", "86", "--compression", "10",
			"--liquid", "60", "--rpm", "3000"}},
		{"motion", []string{"motion", "--stroke", "86", "--rod", "146", "--bore", "86", "--compression", "10", "--liquid", "1"}},
		{"rehearse", []string{"rehearse", "--check", lesson, "--tdc", "2.9"}},
		{"rehearse", []string{"rehearse", "--check", lesson, "--tdc", "90"}},
		{"rehearse-lobe", []string{"rehearse", "--check", lesson, "--late", "4.2", "--fault", "moved"}},
		{"rehearse-lobe", []string{"rehearse", "--check", lesson, "--opens", "2"}},
		{"rehearse-class", []string{"rehearse", "--check", class, "--answers", answers}},
		{"recheck", []string{"recheck", diagnostician, "../../examples/diagnostician/after.toml"}},
		{"plan", []string{"plan", diagnostician}},
		{"plan", []string{"plan", diagnostician, "--target", "0.1", "--one-way"}},
		{"plan", []string{"plan", "../../examples/builder/job.toml"}},
		{"edges", edgesOf(before)},
		{"edges", edgesOf(after, "--against", before)},
		{"halve", []string{"halve", "348.6", "11.8", "350", "10"}},
		{"halve", []string{"halve", "68", "152", "--lobe", "--tdc", "2"}},
		{"convert", []string{"convert", "2", "teeth", "--pitches", "42"}},
		{"convert", []string{"convert", "4.1", "mm", "--radius", "21", "--chord"}},
	}
}

// Every answer in JSON is what its schema says.
func TestSchemas(t *testing.T) {
	for _, c := range allAsked(t) {
		s := openSchema(t, c.schema)
		s.complete(t, c.schema)
		require.Empty(t, s.check(c.schema, jsonOf(t, c.args...)), c.args)
	}
}

// An answer with any one thing wrong in it is not what its schema says: of every
// command, every field in turn is taken away, renamed or given another type.
func TestSchemasHold(t *testing.T) {
	spoilt := map[string]int{}
	for _, c := range allAsked(t) {
		s, v := openSchema(t, c.schema), jsonOf(t, c.args...)
		spoil(v, func(what string) {
			spoilt[c.schema]++
			require.NotEmpty(t, s.check(c.schema, v), "%v: %s", c.args, what)
		})
		require.Empty(t, s.check(c.schema, v), "mended again")
	}
	require.Greater(t, spoilt["find"], 150) // more than 50 fields, three ways each
	require.Len(t, spoilt, 11, "every schema there is: %v", spoilt)
}

// spoil calls seen with one thing wrong in a value at a time. Of a list the first
// item stands for all.
func spoil(v any, seen func(what string)) {
	switch v := v.(type) {
	case []any:
		if len(v) > 0 {
			spoil(v[0], seen)
		}
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			was := v[key]
			delete(v, key)
			seen(key + " taken away")
			v[key+"_"] = was
			seen(key + " renamed")
			delete(v, key+"_")
			v[key] = map[string]any{"no": "such thing"}
			if _, object := was.(map[string]any); object {
				v[key] = "no such thing"
			}
			seen(key + " of another type")
			if v[key] = was; key != "findings" { // each holds what its kind has
				spoil(was, seen)
			}
		}
	}
}
