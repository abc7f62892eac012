package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/knowngood"
)

// badLines are lines of a job file below some others, a slash between blanks
// for the end of a line, and what is said of them.
type badLines []struct{ lines, want string }

// check holds each message against what is expected, whole.
func (bad badLines) check(t *testing.T, above string) {
	t.Helper()
	for _, b := range bad {
		text := above + strings.ReplaceAll(b.lines, " / ", "\n")
		require.Equal(t, b.want, refused(t, text), "%q", text)
	}
}

// TestRefuseSyntax is about what is not valid TOML.
func TestRefuseSyntax(t *testing.T) {
	badLines{
		{`title`, `job.toml:1:5: expected a key, an = sign and a value, as in stroke = 81.4`},
		{`title =`, `job.toml:1:7: expected a value after the = sign, as in stroke = 81.4`},
		{`title = # nothing`, `job.toml:1:9: expected a value after the = sign, as in stroke = 81.4`},
		{`title = bench`, `job.toml:1:9: expected a number, or a text in quotes`},
		{`title = "bench`, `job.toml:1:14: a quote is opened and not closed`},
		{`title = 'bench`, `job.toml:1:14: a quote is opened and not closed`},
		{`title = """bench`, `job.toml:1:16: three quotes are opened and not closed`},
		{`title = "a\qb"`, `job.toml:1:11: a backslash in "..." begins an escape: write two, or put the text in '...'`},
		{`title = "a\u00zz"`, `job.toml:1:15: a backslash in "..." begins an escape: write two, or put the text in '...'`},
		{`= 5`, `job.toml:1:1: expected a key, an = sign and a value, as in stroke = 81.4`},
		{`title = "a" unit = "mm"`, `job.toml:1:13: expected the end of the line: one key = value a line`},
		{`unit = tmm`, `job.toml:1:8: a text must stand in quotes, as in "dial"`},
		{`unit = 12mm`, `job.toml:1:10: a text must stand in quotes, as in "12 BTDC"`},
		{`stroke = 81,4`, `job.toml:1:12: expected a decimal point, not a comma, as in 81.4`},
		{`stroke = 81.`, `job.toml:1:12: a digit must follow the decimal point, as in 81.0`},
		{`stroke = .5`, `job.toml:1:10: a digit must stand before the decimal point, as in 0.5`},
		{`stroke = 081`, `job.toml:1:10: a number may not begin with a 0: leave it out`},
		{`stroke = -`, `job.toml:1:10: expected a number such as 81.4`},
		{`stroke = 8__1`, `job.toml:1:11: is not valid TOML: number must have at least one digit between underscores`},
		{`title = "°°" x`, `job.toml:1:14: expected the end of the line: one key = value a line`},
		{`[engine`, `job.toml:1:7: expected ] to close the table's name, as in [engine]`},
		{`engine]`, `job.toml:1:7: expected a key, an = sign and a value, as in stroke = 81.4`},
		{`[]`, `job.toml:1:2: expected a table's name between the brackets, as in [engine]`},
		{`[[]]`, `job.toml:1:3: expected a table's name between the brackets, as in [engine]`},
		{`[[cylinder]`, `job.toml:1:11: expected ]] to close the table's name, as in [[cylinder]]`},
		{`[engine] / known_to = {stroke = 1`, `job.toml:2:22: the { is not closed: expected }`},
		{`[engine] / known_to = {stroke = 1 rod = 2}`, `job.toml:2:24: expected a comma or } after the value`},
		{`[engine] / known_to = {,}`, `job.toml:2:13: a comma too many`},
		{`x = [1, 2`, `job.toml:1:9: the list is not closed: expected ]`},
		{`x = [1 2]`, `job.toml:1:8: expected a comma or ] after the list's value`},
		{`x = [,]`, `job.toml:1:6: a comma too many: expected a value before it`},
		{`a.b. = 1`, `job.toml:1:6: expected a key, an = sign and a value, as in stroke = 81.4`},
	}.check(t, "")
}

// TestRefuseTwice is about what is there twice.
func TestRefuseTwice(t *testing.T) {
	badLines{
		{`title = "a" / title = "b"`, `job.toml:2:1: title: already exists, on line 1: keep one of them`},
		{`"title" = "a" / title = "b"`, `job.toml:2:1: title: already exists, on line 1: keep one of them`},
		{`[engine] / [engine]`, `job.toml:2:1: [engine]: already exists, on line 1: keep one of them`},
		{`[engine] / [[engine]]`, `job.toml:2:1: [[engine]]: already exists, on line 1: keep one of them`},
		{`[[mark]] / [mark]`, `job.toml:2:1: [mark]: there may be more than one: write [[mark]]`},
		{`[mark] / [[mark]]`, `job.toml:1:1: [mark]: there may be more than one: write [[mark]]`},
		{`[cylinder] / [cylinder]`, `job.toml:2:1: [cylinder]: there may be more than one: write [[cylinder]]`},
		{`cylinder = 5 / [[cylinder]]`, `job.toml:1:1: [cylinder]: there may be more than one: write [[cylinder]]`},
		{`[engine] / rod = 1 / [gauge] / [engine.rod]`, `job.toml:4:1: [engine.rod]: already exists, on line 2: keep one of them`},
		{`[engine] / known_to = {} / known_to.rod = 2`, `job.toml:3:1: known_to: already exists, on line 2: keep one of them`},
		{`[engine] / known_to = {rod = 1, rod = 2}`, `job.toml:2:22: rod: already exists, on line 2: keep one of them`},
		{`[engine] / known_to.rod = 1 / known_to.rod = 2`, `job.toml:3:10: rod: already exists, on line 2: keep one of them`},
		{`[engine] / known_to.rod = 1 / [engine.known_to]`, `job.toml:3:1: [engine.known_to]: already exists, on line 2: keep one of them`},
		{`[engine.known_to] / [engine] / [engine]`, `job.toml:3:1: [engine]: already exists, on line 1: keep one of them`},
		{`title = "a" / title.b = 1`, `job.toml:2:1: title: already exists, on line 1: keep one of them`},
		{`[engine] / known_to = {} / [engine.known_to.rod]`, `job.toml:3:9: known_to: already exists, on line 2: keep one of them`},
		{`title = "a" / [title.b]`, `job.toml:2:2: title: already exists, on line 1: keep one of them`},
		{`unit = "mm" / [[unit]]`, `job.toml:2:1: [[unit]]: already exists, on line 1: keep one of them`},
	}.check(t, "")
}

// TestRefuseTop is about the top of the file.
func TestRefuseTop(t *testing.T) {
	badLines{
		{`title = 5`, `job.toml:1:9: title = 5: expected a text in quotes, as in "text"`},
		{`title = "a\tb"`, `job.toml:1:9: title = "a\tb": expected one line of text, without control characters`},
		{`title = """a / b"""`, `job.toml:1:9: title = "a\nb": expected one line of text, without control characters`},
		{`unit = "cm"`, `job.toml:1:8: unit = "cm": expected "mm" or "in"`},
		{`unit = nan`, `job.toml:1:8: unit = nan: expected "mm" or "in"`},
		{`unit = 2026-01-01`, `job.toml:1:8: unit = 2026-01-01: expected "mm" or "in"`},
		{`unit = [1]`, `job.toml:1:8: unit = [...]: expected "mm" or "in"`},
		{`unit = {a = 1}`, `job.toml:1:8: unit = {...}: expected "mm" or "in"`},
		{`units = "mm"`, `job.toml:1:1: units: unknown key; did you mean "unit"?`},
		{`"a b" = 1`, `job.toml:1:1: "a b": unknown key; expected unit, title, date, engine, protractor, gauge, cylinder, drive, joint, mark, lobe, sheet or photo`},
		{`rod = 133.0`, `job.toml:1:1: rod: unknown key; expected unit, title, date, engine, protractor, gauge, cylinder, drive, joint, mark, lobe, sheet or photo`},
		{`engien.stroke = 81.4`, `job.toml:1:1: engien: unknown key; did you mean "engine"?`},
		{`this_is_a_very_long_key_that_no_table_has_at_all = 1`, `job.toml:1:1: "this_is_a_very_long_key_that_no_table_ha...": unknown key; expected unit, title, date, engine, protractor, gauge, cylinder, drive, joint, mark, lobe, sheet or photo`},
		{`[[engine]]`, `job.toml:1:1: [[engine]]: there is only one: write [engine]`},
		{`engine = 5`, `job.toml:1:10: engine = 5: expected a table: write [engine] on a line of its own`},
		{`[cylinder]`, `job.toml:1:1: [cylinder]: there may be more than one: write [[cylinder]]`},
		{`cylinder = 5`, `job.toml:1:12: cylinder = 5: expected tables: write [[cylinder]] on a line of its own`},
		{`cylinder = []`, `job.toml:1:12: cylinder = [...]: expected tables: write [[cylinder]] on a line of its own`},
		{`cylinder = [5]`, `job.toml:1:13: cylinder = 5: expected tables: write [[cylinder]] on a line of its own`},
		{`mark = 07:30:00`, `job.toml:1:8: mark = 07:30:00: expected tables: write [[mark]] on a line of its own`},
		{`title = "no cylinder"`, `job.toml:1:22: expected a cylinder: add a line [[cylinder]], and below it number = 1 and readings = "cylinder-1.csv"`},
	}.check(t, "")
}

// TestRefuseDates is about days that no calendar has, or nobody else can read; ISO 8601
// writes year-month-day, and 2026 is no leap year.
func TestRefuseDates(t *testing.T) {
	const want = "expected a day of the calendar as year-month-day, such as 2026-11-25"
	for _, bad := range []string{
		`"yesterday"`, `"25.11.2026"`, `"11/25/2026"`, `"2026-11"`, `"26-11-25"`, `"2026-2-3"`, `"2026-02-29"`, `2026-02-30`, `"2026-02-30"`,
		`2026-13-01`, `2026-00-10`, `12:30:00`, `2026-11-25T12:30:00`, `20261125`, `true`, `["2026-11-25"]`, `"2026-11-25\u202e"`,
	} {
		said := refused(t, "date = "+bad)
		require.Contains(t, said, "job.toml:1:8: date = ", bad)
		require.Contains(t, said, want, bad)
		_, err := knowngood.Parse("good.toml", []byte("[[from]]\ndate = "+bad))
		require.ErrorContains(t, err, "good.toml:2:8: date = ", bad)
		require.ErrorContains(t, err, want, bad)
	}
	for good, date := range map[string]string{`2026-11-25`: "2026-11-25", `"2024-02-29"`: "2024-02-29", `" 2026-11-25 "`: "2026-11-25", `""`: ""} {
		k, err := knowngood.Parse("good.toml", []byte("[[from]]\ndate = "+good+"\n[[mark]]\nname = \"a\"\non = \"b\"\nshould_be = 0\nstandard_uncertainty = 0.1\n"))
		require.NoError(t, err, good)
		require.Equal(t, date, k.From[0].Date, good)
	}
}
