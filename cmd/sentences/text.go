package main

import (
	"go/ast"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// text is what an expression says, with gaps, where it has words of its own.
func (r *reader) text(e ast.Expr) (text string, is bool) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		text, is = r.text(e.X)
	case *ast.BasicLit:
		if is = e.Kind == token.STRING; is {
			text, _ = strconv.Unquote(e.Value) // the parser has been through it
		}
	case *ast.Ident:
		text, is = r.named(e)
	case *ast.SelectorExpr:
		if of, ident := e.X.(*ast.Ident); ident {
			text, is = r.constant(of.Name + "." + e.Sel.Name)
		}
	case *ast.BinaryExpr:
		text, is = r.joined(e)
	case *ast.CallExpr:
		text, is = r.filled(e)
	}
	if is {
		r.parts = append(r.parts, e)
	}
	return text, is
}

// named is what a name stands for: a constant, or a variable with few texts.
func (r *reader) named(id *ast.Ident) (string, bool) {
	if text, is := r.constant(r.file.Name.Name + "." + id.Name); is {
		return text, true
	}
	var may []string
	values := r.vars[id.Name]
	for _, e := range values {
		if e == nil || e == more {
			continue
		}
		if text, is := r.putIn(e); is && text != "" && !slices.Contains(may, text) {
			may = append(may, text)
		}
	}
	switch {
	case len(may) == 0:
		return "", false
	case len(values) == 1:
		return may[0], true
	case len(may) == 1 && values[0] != nil && !slices.ContainsFunc(values[1:], func(e ast.Expr) bool { return e != more }):
		return may[0] + gap("…"), true
	}
	return gap(may...), true
}

func (r *reader) constant(name string) (string, bool) {
	e, is := r.consts[name]
	if !is {
		return "", false
	}
	return r.putIn(e)
}

// deepest is how far texts are put into one another: each may be one of many.
const deepest = 3

// putIn is a text that is said as a part of another.
func (r *reader) putIn(e ast.Expr) (string, bool) {
	if len(r.open) == deepest || slices.Contains(r.open, e) {
		return "", false
	}
	r.open = append(r.open, e)
	kept := len(r.parts)
	text, is := r.text(e)
	r.parts, r.open = r.parts[:kept], r.open[:len(r.open)-1]
	if is {
		r.inside = append(r.inside, e)
	}
	return text, is
}

// joined is a text and what is added to it.
func (r *reader) joined(e *ast.BinaryExpr) (string, bool) {
	if e.Op != token.ADD {
		return "", false
	}
	left, isLeft := r.text(e.X)
	right, isRight := r.text(e.Y)
	if !isLeft {
		left = gap(nameOf(e.X))
	}
	if !isRight {
		right = gap(nameOf(e.Y))
	}
	return left + right, isLeft || isRight
}

// verb is a place of a format, and how it is written.
var verb = regexp.MustCompile(`%%|%[-+#0]*[0-9*]*(?:\.[0-9*]+)?(?:\[(\d+)\])?([a-zA-Z])`)

// filled is a format with its arguments in their places, or so many of a thing.
func (r *reader) filled(c *ast.CallExpr) (string, bool) {
	if counted := nameOf(c.Fun); counted == "count" && len(c.Args) == 2 {
		if thing, is := r.text(c.Args[1]); is {
			return gap(nameOf(c.Args[0])) + " " + thing + gap("s"), true
		}
	}
	for i, a := range c.Args {
		kept, inside := len(r.parts), len(r.inside)
		format, is := r.text(a)
		if places := verbs(format); is && places > 0 && (places <= len(c.Args)-i-1 || c.Ellipsis.IsValid()) {
			return r.fill(format, c.Args[i+1:]), true
		}
		r.parts, r.inside = r.parts[:kept], r.inside[:inside]
	}
	return "", false
}

// verbs is how many arguments a format has places for.
func verbs(format string) (most int) {
	next := 0
	for _, v := range verb.FindAllStringSubmatch(format, -1) {
		if v[0] == "%%" {
			continue
		}
		if v[1] != "" {
			next, _ = strconv.Atoi(v[1])
			next--
		}
		next++
		most = max(most, next)
	}
	return most
}

func (r *reader) fill(format string, args []ast.Expr) string {
	next := 0
	return verb.ReplaceAllStringFunc(format, func(v string) string {
		if v == "%%" {
			return "%"
		}
		if nth := verb.FindStringSubmatch(v)[1]; nth != "" {
			next, _ = strconv.Atoi(nth)
			next--
		}
		next++
		if next > len(args) {
			return gap("…")
		}
		if text, is := r.text(args[next-1]); is {
			return text
		}
		return gap(nameOf(args[next-1]))
	})
}

// plainly are functions that write what they are given and change nothing else.
var plainly = []string{"Degrees", "Millimetres", "String", "Error"}

// nameOf is what the source calls an expression.
func nameOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return spaced(e.Name)
	case *ast.SelectorExpr:
		return spaced(e.Sel.Name)
	case *ast.CallExpr:
		return nameOfCall(e)
	case *ast.BasicLit:
		return strings.Trim(e.Value, "\"`'")
	case *ast.BinaryExpr:
		return nameOf(e.X)
	case *ast.IndexExpr:
		return nameOf(e.X)
	case *ast.SliceExpr:
		return nameOf(e.X)
	case *ast.StarExpr:
		return nameOf(e.X)
	case *ast.ParenExpr:
		return nameOf(e.X)
	case *ast.TypeAssertExpr:
		return nameOf(e.X)
	case *ast.UnaryExpr:
		return nameOf(e.X)
	}
	return "…"
}

// nameOfCall is what a function is given, where that has a name that says something, and
// the function's name where not.
func nameOfCall(c *ast.CallExpr) string {
	of, method := c.Fun.(*ast.SelectorExpr)
	if method && slices.Contains(plainly, of.Sel.Name) && len(c.Args) == 0 {
		return nameOf(of.X)
	}
	var given []string
	for _, a := range c.Args {
		if lit, is := a.(*ast.BasicLit); is && lit.Kind == token.STRING && len(given) > 0 {
			return given[0] + " " + nameOf(a) // so many of a thing
		}
		given = append(given, nameOf(a))
	}
	if len(given) > 0 && len([]rune(given[0])) > 2 {
		return given[0]
	}
	return nameOf(c.Fun)
}

// spaced is a name of the source in words.
func spaced(name string) string {
	var out strings.Builder
	before := 'A'
	for _, r := range name {
		if unicode.IsUpper(r) && !unicode.IsUpper(before) {
			out.WriteByte(' ')
		}
		before = r
		if len(name) > 3 {
			r = unicode.ToLower(r)
		}
		out.WriteRune(r)
	}
	return out.String()
}
