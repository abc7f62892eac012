package words

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/source"
)

// What to type follows what is wrong, however deep it is wrapped, and once.
func TestProblem(t *testing.T) {
	exists := source.Of("my page.html", source.Curable{Problem: "already exists: choose another name", Cure: source.Overwrite})
	const want = "my page.html: already exists: choose another name, or type --replace to overwrite it"
	require.Equal(t, want, Problem(exists))
	require.Equal(t, "x: "+want, Problem(fmt.Errorf("x: %w", exists)))
	foreign := source.Locate("a b.toml", []byte("[[from]]\n"), source.Faultf(0, "%w", source.Curable{Problem: "this is a known-good file", Cure: source.AsKnownGood}))
	require.Equal(t, "a b.toml:1:1: this is a known-good file: type evendrop find JOB --against 'a b.toml'", Problem(foreign))
	require.Equal(t, "not found: check the name", Problem(errors.New("not found: check the name")))
}

// Every cure has its words.
func TestEveryCureIsSaid(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "tdc", "job", "source", "cure.go"))
	require.NoError(t, err)
	cures := regexp.MustCompile(`Cure = "(.*)"`).FindAllStringSubmatch(string(text), -1)
	require.NotEmpty(t, cures)
	said := map[string]bool{}
	for _, c := range cures {
		words := cure(source.Cure(c[1]), "FILE")
		require.Regexp(t, `--[a-z]+|evendrop [a-z]+`, words)
		require.False(t, said[words], "%s", words)
		said[words] = true
	}
}

// The packages beneath know no command and no flag: what they say names none.
func TestCoreNamesNoFlag(t *testing.T) {
	typed := regexp.MustCompile(`evendrop (begin|plan|jot|find|keep|recheck|halve|motion|convert|edges|rehearse|cautions)\b|(^|[^-])--[a-z]`)
	for _, root := range []string{"tdc", "fit", "geometry"} {
		said := 0
		eachString(t, filepath.Join("..", "..", "..", root), func(_, text, where string) {
			said++
			require.NotRegexp(t, typed, text, where)
		})
		require.Positive(t, said)
	}
}
