package main

import (
	"bytes"
	"html/template"
)

// index shows everything side by side. It is read by whoever works on the pages.
var index = template.Must(template.New("index").Parse(`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Pages to look at</title>
<style>body{font:15px/1.4 system-ui,sans-serif;margin:1rem;background:#ddd;color:#111}.row{display:flex;gap:1rem;overflow-x:auto;align-items:flex-start;padding-bottom:1rem}
figure{margin:0;flex:none}img{display:block;max-height:80vh;max-width:60vw;border:1px solid #888;background:#fff}li{margin:.1rem 0}</style></head><body>
<h1>Pages to look at</h1>
<p>All jobs are invented. {{len .}} pages.</p>
<ul>{{range .}}<li><a href="#{{.Name}}">{{.Name}}</a>: {{.Shows}}</li>{{end}}</ul>
{{range .}}<h2 id="{{.Name}}">{{.Name}}</h2>
<p>{{.Shows}}. <a href="{{.Name}}.html">The page</a>, {{.Bytes}} bytes.{{range .Papers}} <a href="{{.File}}">{{.Name}}</a>, {{.Sheets}} pages.{{end}}</p>
<ul>{{range $who, $list := .Faults}}{{range $list}}<li>{{$who}}: {{.}}</li>{{end}}{{end}}</ul>
<div class="row">{{range .Screens}}<figure><figcaption>{{.View}}</figcaption><a href="{{.File}}"><img src="{{.File}}" alt="{{.View}}" loading="lazy"></a></figure>{{end}}</div>
{{range .Papers}}{{if .Shots}}<div class="row">{{range .Shots}}<figure><figcaption>{{.View}}</figcaption><a href="{{.File}}"><img src="{{.File}}" alt="{{.View}}" loading="lazy"></a></figure>{{end}}</div>{{end}}{{end}}
{{end}}</body></html>
`))

// indexOf is the page of all pages.
func indexOf(all []seen) []byte {
	var out bytes.Buffer
	if err := index.Execute(&out, all); err != nil {
		panic(err) // the template is of this file, and writes into memory
	}
	return out.Bytes()
}
