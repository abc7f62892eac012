package main

import (
	"go/ast"
	"go/token"
	"slices"
)

// said is a text and the expression that says it.
type said struct {
	expr      ast.Expr
	text      string
	in, where string // the function, and the package's path
	word      bool   // a single word that is known to be read
}

// reader reads a file.
type reader struct {
	program
	file      *ast.File
	in        string            // the function that is being read
	vars      variables         // of that function
	elsewhere map[ast.Expr]bool // texts that were put into others
	done      map[ast.Node]bool // parts of a text that was said
	parts     []ast.Node        // of the text that is being put together
	inside    []ast.Expr        // what was put into it from where it has a name
	open      []ast.Expr        // what is being put in, that nothing is put into itself
	list      []said
}

// read is the file's texts.
func (r *reader) read() []said {
	for _, d := range r.file.Decls {
		r.in, r.vars = "", nil
		f, is := d.(*ast.FuncDecl)
		if is {
			r.in, r.vars = called(f), assigned(f)
		}
		r.walk(d)
		if is {
			r.choice(f)
		}
	}
	return r.list
}

// choice says the single words that a function answers with, one of them or another text,
// for others to put into a sentence.
func (r *reader) choice(f *ast.FuncDecl) {
	var words []string
	var first ast.Expr
	texts := 0
	ast.Inspect(f, func(n ast.Node) bool {
		back, is := n.(*ast.ReturnStmt)
		if !is || len(back.Results) != 1 {
			return true
		}
		text, is := r.text(back.Results[0])
		if is {
			texts++
		}
		if is && oneWord.MatchString(text) {
			words, first = append(words, text), back.Results[0]
		}
		return true
	})
	switch {
	case texts < 2 || len(words) == 0:
	case len(words) == 1:
		r.list = append(r.list, said{expr: first, text: words[0], in: r.in, word: true})
	default:
		r.list = append(r.list, said{expr: first, text: gap(words...), in: r.in, word: true})
	}
}

// called is a function's name, with its type's where it is a method.
func called(f *ast.FuncDecl) string {
	if f.Recv == nil || len(f.Recv.List) == 0 {
		return f.Name.Name
	}
	return nameOf(f.Recv.List[0].Type) + "." + f.Name.Name
}

// variables is what a function puts into each of its variables; nil is what is not known,
// such as an argument or nothing at all.
type variables map[string][]ast.Expr

// more stands for what is added to a variable.
var more ast.Expr = &ast.BadExpr{}

func (v variables) put(to, what ast.Expr) {
	if id, is := to.(*ast.Ident); is {
		v[id.Name] = append(v[id.Name], what)
	}
}

// assigned is the variables of a function.
func assigned(f *ast.FuncDecl) variables {
	vars := variables{}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Field: // an argument or a result
			for _, name := range n.Names {
				vars.put(name, nil)
			}
		case *ast.AssignStmt:
			switch {
			case n.Tok == token.ADD_ASSIGN:
				vars.put(n.Lhs[0], more)
			case len(n.Lhs) == len(n.Rhs):
				for i := range n.Lhs {
					vars.put(n.Lhs[i], n.Rhs[i])
				}
			}
		case *ast.ValueSpec:
			for i, name := range n.Names {
				if len(n.Values) == len(n.Names) {
					vars.put(name, n.Values[i])
				} else {
					vars.put(name, nil)
				}
			}
		}
		return true
	})
	return vars
}

// walk says every text below a node that somebody may read.
func (r *reader) walk(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			return n.Tag == nil // of JSON
		case *ast.CaseClause:
			r.walkAll(n.Body)
			return false
		case *ast.IndexExpr:
			r.walk(n.X)
			return false
		case *ast.KeyValueExpr:
			r.walk(n.Value)
			return false
		case *ast.CompositeLit:
			r.row(n)
		case *ast.CallExpr:
			if looksInside(n) {
				r.walk(n.Args[0])
				return false
			}
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				return false
			}
		}
		if e, is := n.(ast.Expr); is && !r.done[e] {
			r.say(e)
		}
		return true
	})
}

// row says the single words of a list of texts in which others have several, such as what
// heads a table.
func (r *reader) row(list *ast.CompositeLit) {
	var words []ast.Expr
	among := false
	for _, e := range list.Elts {
		text, is := r.text(e)
		among = among || is && isRead(text)
		if is && oneWord.MatchString(text) {
			words = append(words, e)
		}
	}
	for _, e := range words {
		if among && isText(list.Type) {
			text, _ := r.text(e)
			r.list = append(r.list, said{expr: e, text: text, in: r.in, word: true})
		}
	}
}

// isText is whether a type is a list of texts.
func isText(t ast.Expr) bool {
	list, is := t.(*ast.ArrayType)
	if !is {
		return false
	}
	of, is := list.Elt.(*ast.Ident)
	return is && of.Name == "string"
}

func (r *reader) walkAll(list []ast.Stmt) {
	for _, s := range list {
		r.walk(s)
	}
}

// say notes an expression that is a text.
func (r *reader) say(e ast.Expr) {
	r.parts, r.inside = nil, nil
	text, is := r.text(e)
	if _, name := e.(*ast.Ident); name || !is {
		return // a name's text is said where it gets it
	}
	for _, part := range r.parts {
		r.done[part] = true
	}
	for _, other := range r.inside {
		r.elsewhere[other] = true
	}
	r.list = append(r.list, said{expr: e, text: text, in: r.in})
}

// looking are the functions of the standard library that look for a text in another, take
// a pattern apart, or name a file or a header.
var looking = map[string][]string{
	"strings": {"Contains", "ContainsAny", "HasPrefix", "HasSuffix", "Cut", "CutPrefix", "CutSuffix", "Index", "IndexAny", "LastIndex",
		"Trim", "TrimLeft", "TrimRight", "TrimPrefix", "TrimSuffix", "Split", "SplitN", "Replace", "ReplaceAll", "EqualFold", "Count", "Repeat"},
	"bytes":  {"Contains", "HasPrefix", "HasSuffix", "Cut", "CutPrefix", "Index", "TrimPrefix", "TrimSuffix", "ReplaceAll", "Count"},
	"regexp": {"MustCompile"},
	"time":   {"Parse"},
}

// looksInside is whether a call only looks for its texts in its first argument.
func looksInside(c *ast.CallExpr) bool {
	f, is := c.Fun.(*ast.SelectorExpr)
	if !is || len(c.Args) == 0 {
		return false
	}
	of, is := f.X.(*ast.Ident)
	return is && slices.Contains(looking[of.Name], f.Sel.Name)
}
