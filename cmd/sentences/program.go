package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
)

// speaking are the folders whose packages speak to a person.
var speaking = []string{"cmd/benchpage/core", "cmd/evendrop", "cmd/internal", "geometry", "tdc"}

// silent are packages among them that do not: they are for tests, for who builds evendrop,
// or hold kinds, columns and names that are kept as JSON's keys are.
var silent = regexp.MustCompile(`test$|/(browser|looked|scenes|testdata|finding|data)(/|$)`)

// page is the folder of the page's own scripts.
const page = "cmd/benchpage/page"

// program is the source of every package that speaks.
type program struct {
	set      *token.FileSet
	packages map[string][]*ast.File // by their paths from the root
	consts   map[string]ast.Expr    // texts with a name, as package.name
}

// Everything is all sentences of the program whose go.mod is in root, by package, file
// and line.
func Everything(root string) ([]Sentence, error) {
	p := program{token.NewFileSet(), map[string][]*ast.File{}, map[string]ast.Expr{}}
	for _, dir := range speaking {
		if err := p.parse(root, dir); err != nil {
			return nil, err
		}
	}
	list := p.sentences()
	ofPage, err := pageSentences(root)
	if err != nil {
		return nil, err
	}
	list = append(list, ofPage...)
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if a.Package != b.Package {
			return a.Package < b.Package
		}
		if a.File != b.File {
			return a.File < b.File
		}
		return a.Line < b.Line
	})
	return list, nil
}

// parse reads the packages below a folder.
func (p program) parse(root, dir string) error {
	return filepath.WalkDir(filepath.Join(root, dir), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		in, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil || silent.MatchString(filepath.ToSlash(in)) {
			return err
		}
		file, err := parser.ParseFile(p.set, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		in = filepath.ToSlash(in)
		p.packages[in] = append(p.packages[in], file)
		p.name(file)
		return nil
	})
}

// name notes the texts that a file gives a name.
func (p program) name(file *ast.File) {
	for _, d := range file.Decls {
		general, is := d.(*ast.GenDecl)
		if !is || general.Tok != token.CONST {
			continue
		}
		for _, s := range general.Specs {
			spec := s.(*ast.ValueSpec)
			for i, v := range spec.Values {
				p.consts[file.Name.Name+"."+spec.Names[i].Name] = v
			}
		}
	}
}

// sentences are those of the packages.
func (p program) sentences() (list []Sentence) {
	elsewhere := map[ast.Expr]bool{}
	var all []said
	for path, files := range p.packages {
		for _, file := range files {
			r := reader{program: p, file: file, elsewhere: elsewhere, done: map[ast.Node]bool{}}
			for _, s := range r.read() {
				s.where = path
				all = append(all, s)
			}
		}
	}
	for _, s := range all {
		if !elsewhere[s.expr] {
			list = append(list, p.placed(s)...)
		}
	}
	return list
}

// placed is a text's sentences with their place.
func (p program) placed(s said) (list []Sentence) {
	at := p.set.Position(s.expr.Pos())
	text := verb.ReplaceAllStringFunc(s.text, func(v string) string {
		if v == "%%" {
			return v
		}
		return gap("…") // a format that is kept for later
	})
	for _, piece := range sentences(untagged(text)) {
		if s.word || isRead(piece) {
			list = append(list, Sentence{Package: s.where, File: filepath.Base(at.Filename), Line: at.Line, In: s.in, Text: piece})
		}
	}
	return list
}
