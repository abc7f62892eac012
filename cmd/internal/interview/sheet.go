package interview

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job/record"
)

// SheetField is something that a customer's sheet says, and what asks for it.
type SheetField struct {
	Key  string // of record.Keys
	Asks string
}

// SheetFields are what is asked for a sheet, in this order. The day is none of it: it is the
// job's.
var SheetFields = []SheetField{
	{"shop", "What is your shop called?"},
	{"customer", "Who is the customer?"},
	{"vehicle", "Which vehicle is it, by its plate or model?"},
	{"odometer", "What does its odometer read?"},
	{"order", "What is the order's number?"},
	{"by", "Who does the work?"},
}

// TakeSheet is a sheet with what was typed for one of record.Keys; nothing takes it out.
// More than 100 characters are an error.
func TakeSheet(s record.Sheet, key, typed string) (record.Sheet, error) {
	const longest = 100
	if len([]rune(typed)) > longest {
		return s, fmt.Errorf("a sheet has room for %d characters there: type it shorter", longest)
	}
	*s.At(key) = legible.Plain(typed)
	return s, nil
}

// sheetTopics asks whether there is to be a sheet, and what it says.
func sheetTopics() []topic {
	list := []topic{{name: "sheet", asks: fixed("A sheet for a customer too? y or n", "n"), take: takeSheet, help: sheetHelp}}
	for _, field := range SheetFields {
		list = append(list, topic{name: field.Key, asks: fixed(field.Asks, "none"), when: func(f Facts) bool { return f.wantsSheet },
			take: func(f Facts, answer string) (Facts, string, error) {
				var err error
				f.Sheet, err = TakeSheet(f.Sheet, field.Key, answer)
				return f, "", err
			}, help: sheetHelp})
	}
	return list
}

// takeSheet reads whether a sheet is wanted.
func takeSheet(f Facts, answer string) (Facts, string, error) {
	wants, err := yesOrNo(answer, false)
	if err != nil {
		return f, "", errors.New("type y or n: with y you are asked for shop, customer and vehicle")
	}
	f.wantsSheet = wants
	return f, "", nil
}
