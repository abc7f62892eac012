package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// pageSentences is what the page's own scripts and HTML say.
func pageSentences(root string) (list []Sentence, err error) {
	paths, err := filepath.Glob(filepath.Join(root, filepath.FromSlash(page), "*.*"))
	for _, path := range paths {
		read := map[string]func(string) []scriptText{".js": textsOfScript, ".html": textsOfHTML}[filepath.Ext(path)]
		if read == nil {
			continue
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		for _, t := range read(string(data)) {
			for _, piece := range sentences(untagged(t.text)) {
				if isRead(piece) {
					list = append(list, Sentence{Package: page, File: filepath.Base(path), Line: t.line, In: t.in, Text: piece})
				}
			}
		}
	}
	return list, err
}

// scriptText is a text of a script, its line and what it stands in.
type scriptText struct {
	text string
	line int
	in   string
}

// textsOfHTML is a page as one text, whose tags are taken off later.
func textsOfHTML(page string) []scriptText { return []scriptText{{text: page, line: 1}} }

var (
	// piece is a comment or a text in quotes; regex a pattern between slashes; named a
	// function.
	piece = regexp.MustCompile("(?s)^(?://[^\n]*|/\\*.*?\\*/" + `|'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*")`)
	regex = regexp.MustCompile(`^/(?:[^/\\\n\[]|\\.|\[(?:[^\]\\\n]|\\.)*\])+/[a-z]*`)
	named = regexp.MustCompile(`^(?:function |const )(\w+)(?:\(| = (?:async )?\()`)

	// unread are the keys whose texts are for the browser.
	unread = regexp.MustCompile(`(?:\b(?:class|id|d|viewBox|type|role|inputmode|for|href|list|kind|action|name|accept|transform|autocomplete)'?:|[!=]==|case|querySelector(?:All)?\(|getElementById\(|addEventListener\(|draw\(|el\(|classList\.\w+\()\s*$`)
)

// scanner goes through a script.
type scanner struct {
	script string
	at     int
	in     string
	list   []scriptText
}

// textsOfScript is the texts of a script, with gaps for what templates put in.
func textsOfScript(script string) []scriptText {
	s := scanner{script: script}
	s.scan(func() bool { return false })
	return s.list
}

// scan notes texts until what ends it, or the script's end.
func (s *scanner) scan(end func() bool) {
	for s.at < len(s.script) && !end() {
		switch s.script[s.at] {
		case 'f', 'c':
			if f := named.FindStringSubmatch(s.line()); f != nil {
				s.in = f[1]
			}
			s.at++
		case '`':
			from := s.at
			s.note(from, s.template())
		case '\'', '"', '/':
			s.whole()
		default:
			s.at++
		}
	}
}

// line is the rest of the line.
func (s *scanner) line() string {
	line, _, _ := strings.Cut(s.script[s.at:], "\n")
	return line
}

// whole takes a comment, a text or a pattern, or a slash that divides.
func (s *scanner) whole() {
	found := piece.FindString(s.script[s.at:])
	switch {
	case found != "" && found[0] != '/':
		s.note(s.at, unquoted(found))
	case found == "" && s.mayBeRegex():
		found = regex.FindString(s.line())
	}
	s.at += max(1, len(found))
}

// mayBeRegex is whether a slash begins a pattern here, and does not divide.
func (s *scanner) mayBeRegex() bool {
	before := strings.TrimRight(s.script[:s.at], " \n")
	return before == "" || strings.ContainsAny(before[len(before)-1:], "(,=:[!&|?{};>")
}

// note keeps a text that stands at a place, where somebody may read it.
func (s *scanner) note(at int, text string) {
	if before := s.script[max(0, at-60):at]; !unread.MatchString(before) {
		s.list = append(s.list, scriptText{text, 1 + strings.Count(s.script[:at], "\n"), s.in})
	}
}

// unquoted is a text without its quotes.
func unquoted(text string) string {
	return strings.NewReplacer(`\n`, "\n", `\'`, "'", `\"`, `"`, `\\`, `\`).Replace(text[1 : len(text)-1])
}

// template is the text of a template, from its first quote on to behind its last.
func (s *scanner) template() string {
	var text strings.Builder
	for s.at++; s.at < len(s.script) && s.script[s.at] != '`'; {
		if strings.HasPrefix(s.script[s.at:], "${") {
			text.WriteString(s.putIn())
			continue
		}
		text.WriteByte(s.script[s.at])
		s.at++
	}
	s.at++
	return text.String()
}

var lastName = regexp.MustCompile(`[A-Za-z]\w*`)

// putIn is the gap for what a template puts in: the texts that it may be, or its name.
func (s *scanner) putIn() string {
	s.at += len("${")
	from, depth, inside := s.at, 0, scanner{script: s.script, at: s.at}
	inside.scan(func() bool {
		switch inside.script[inside.at] {
		case '{':
			depth++
		case '}':
			depth--
		}
		return depth < 0
	})
	expression := s.script[from:inside.at]
	s.at = inside.at + 1
	var may []string
	for _, t := range inside.list {
		if t.text != "" {
			may = append(may, t.text)
		}
	}
	if len(may) > 0 {
		return gap(may...)
	}
	names := lastName.FindAllString(expression, -1)
	if len(names) == 0 {
		return gap("…")
	}
	return gap(spaced(names[len(names)-1]))
}
