package formtest

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

type parts struct {
	Name string `json:"name"`
}

type everything struct {
	parts
	Yes      bool       `json:"yes"`
	Count    int        `json:"count" enum:"1|2"`
	Angle    float64    `json:"angle_deg" doc:"from TDC"`
	Interval [2]float64 `json:"interval95_deg"`
	Turn     *string    `json:"turn" enum:"forward|backward" doc:"null: both ways"`
	One      *parts     `json:"one"`
	Many     []parts    `json:"many"`
	States   []string   `json:"states" enum:"|within"`
	Note     string     `json:"note,omitempty"`
}

// The keywords and what they mean are those of JSON Schema 2020-12, validation,
// sections 6.1.1 (type), 6.1.2 (enum), 6.4 (items) and 6.5.3 (required).
func TestEveryKindOfField(t *testing.T) {
	s, err := of("title", "what it is", everything{})
	require.NoError(t, err)
	out, err := json.Marshal(s)
	require.NoError(t, err)
	require.JSONEq(t, `{"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "title", "description": "what it is",
		"type": "object", "required": ["name", "yes", "count", "angle_deg", "interval95_deg", "turn", "one", "many", "states"],
		"properties": {
			"name": {"type": "string"},
			"yes": {"type": "boolean"},
			"count": {"type": "integer", "enum": [1, 2]},
			"angle_deg": {"type": "number", "description": "from TDC"},
			"interval95_deg": {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 2},
			"turn": {"type": ["string", "null"], "enum": ["forward", "backward", null], "description": "null: both ways"},
			"one": {"type": ["object", "null"], "required": ["name"], "properties": {"name": {"type": "string"}}},
			"many": {"type": "array", "items": {"type": "object", "required": ["name"], "properties": {"name": {"type": "string"}}}},
			"states": {"type": "array", "items": {"type": "string", "enum": ["", "within"]}},
			"note": {"type": "string"}}}`, string(out))
}

// The properties stand in the order in which encoding/json writes the fields.
func TestOrderIsThatOfTheAnswer(t *testing.T) {
	s, err := of("", "", everything{})
	require.NoError(t, err)
	out, err := json.Marshal(s.Properties[:3])
	require.NoError(t, err)
	require.Equal(t, `{"name":{"type":"string"},"yes":{"type":"boolean"},"count":{"type":"integer","enum":[1,2]}}`, string(out))
}

// What would hold an answer to nothing is refused, and so is a field that would get
// its name in JSON by accident.
func TestNothingIsLeftOpen(t *testing.T) {
	for _, loose := range []any{
		struct {
			Any any `json:"any"`
		}{},
		struct {
			Map map[string]int `json:"map"`
		}{},
		struct{ Unnamed int }{},
		struct {
			Deep []struct{ Unnamed float64 } `json:"deep"`
		}{},
		[]any{math.Pi},
	} {
		_, err := of("", "", loose)
		require.Error(t, err, "%T", loose)
	}
}
