package words

import (
	"encoding/json"

	"evendrop/tdc/finding"
)

// Told is a finding as JSON has it: its kind, its words, and beside them the numbers
// of its kind.
type Told struct {
	Finding finding.Finding
	Words   string
}

// Told is findings as JSON has them.
func (b Bench) Told(list []finding.Finding) []Told {
	told := []Told{}
	for _, f := range list {
		told = append(told, Told{f, b.Finding(f)})
	}
	return told
}

// MarshalJSON puts kind and words before the finding's own fields.
func (t Told) MarshalJSON() ([]byte, error) {
	head, err := json.Marshal(struct {
		Kind  string `json:"kind"`
		Words string `json:"words"`
	}{t.Finding.Kind(), t.Words})
	if err != nil {
		return nil, err
	}
	numbers, err := json.Marshal(t.Finding)
	if err != nil || string(numbers) == "{}" {
		return head, err
	}
	return append(append(head[:len(head)-1], ','), numbers[1:]...), nil
}
