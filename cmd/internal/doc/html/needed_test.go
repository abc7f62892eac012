package html

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// By hand: a rule stays where a selector of it has no class that the page has not; what is in
// brackets is not read, and what is not a rule stays.
func TestNeeded(t *testing.T) {
	page := `<p class="a b">.c</p><p class="d">`
	for _, c := range []struct{ style, left string }{
		{".a{x:1}.c{x:2}.d{x:3}", ".a{x:1}.d{x:3}"},
		{".a .b,.a .c,p{x:.5}", ".a .b,p{x:.5}"},
		{"p>.c::after{content:\"\"}b{x:1}", "b{x:1}"},
		{".c:is(p,ul){x:1}\n.a:not(.c){y:2}", ".c:is(p,ul){x:1}\n.a:not(.c){y:2}"},
		{"@media print{.c{x:1}.a.b{x:2}}", "@media print{.a.b{x:2}}"},
		{"@page{size:auto}", "@page{size:auto}"},
	} {
		require.Equal(t, c.left, needed(c.style, page), c.style)
	}
}

// A page has the rules that it needs, and all of them where it has to be known by them.
func TestPageHasItsRules(t *testing.T) {
	p := Page{Style: ".sheet{x:1}.absent{x:2}", Articles: []Article{{Class: "sheet"}}}
	require.Contains(t, string(p.Write()), "<style>.sheet{x:1}</style>")
	p.WholeStyle = true
	require.Contains(t, string(p.Write()), "<style>.sheet{x:1}.absent{x:2}</style>")
	require.Equal(t, 1, strings.Count(string(p.Write()), "<main>"))
}
