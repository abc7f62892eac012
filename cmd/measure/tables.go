package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// tabled is the rows of the tables that a test prints: each with its name, and the numbers
// of the columns that stand after it.
type tabled []struct {
	name   string
	number []float64
}

var number = regexp.MustCompile(`^(-|[+-]?\d+(\.\d+)?|NaN)$`)

// readTable finds the rows of a table with so many columns: lines with so many numbers, or
// dashes, one after another behind a name.
func readTable(text string, columns int) (list tabled) {
	for line := range strings.Lines(text) {
		fields := strings.Fields(line)
		for i := 0; i < len(fields); i++ {
			end := i
			for end < len(fields) && number.MatchString(fields[end]) {
				end++
			}
			if at := end - columns; at >= max(i, 1) {
				list = append(list, struct {
					name   string
					number []float64
				}{strings.Join(fields[:at], " "), numbersOf(fields[at:end])})
				break
			}
			i = end
		}
	}
	return list
}

// numbersOf is fields as numbers: a dash is none.
func numbersOf(fields []string) (list []float64) {
	for _, f := range fields {
		x, err := strconv.ParseFloat(f, 64)
		if err != nil {
			x = math.NaN()
		}
		list = append(list, x)
	}
	return list
}

// of is the rows whose names match.
func (t tabled) of(pattern string) (list tabled) {
	wanted := regexp.MustCompile(pattern)
	for _, r := range t {
		if wanted.MatchString(r.name) {
			list = append(list, r)
		}
	}
	return list
}

// worst is the row that lies farthest outside an aim in a column, or nearest to its end.
func (t tabled) worst(column int, a func(row int) aim) (name string, value float64, of aim) {
	most := math.Inf(-1)
	for i, r := range t {
		x, a := r.number[column], a(i)
		if past := a.past(x); past > most {
			most, name, value, of = past, r.name, x, a
		}
	}
	return name, value, of
}

// mean is that of a column.
func (t tabled) mean(column int) float64 {
	sum := 0.0
	for _, r := range t {
		sum += r.number[column]
	}
	return sum / float64(len(t))
}

var jobsAPoint = regexp.MustCompile(`(\d+) jobs a point`)

// jobsOf is how many jobs a point a table has.
func jobsOf(text string) (int, error) {
	m := jobsAPoint.FindStringSubmatch(text)
	if m == nil {
		return 0, fmt.Errorf("no table in:\n%s", text)
	}
	return strconv.Atoi(m[1])
}
