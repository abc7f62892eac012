package main

import (
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// lobePictures are the pictures of lobes on a job's page, by their titles.
func lobePictures(t *testing.T, job string) map[string]string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	code, _, errs := ev("find", job, "--page", file)
	require.Equal(t, answered, code, errs)
	page := strings.NewReplacer("\u2068", "", "\u2069", "").Replace(mustRead(t, file))
	pictures := map[string]string{}
	for _, found := range regexp.MustCompile(`(?s)<svg class="ed[^>]*><title>([^<]*)</title>.*?</figure>`).FindAllStringSubmatch(page, -1) {
		if strings.Contains(found[1], "cam lobes") || strings.Contains(found[1], "equal lifts") {
			pictures[found[1]] = html.UnescapeString(found[0])
		}
	}
	return pictures
}

// The page has one picture of a cylinder's lobes and one of the middles of each, and what
// they say is what the answer's data say.
func TestLobesOnThePage(t *testing.T) {
	job := lobesJob(t, inletLobe+exhaustLobe, nil)
	out, pictures := lobesFound(t, job), lobePictures(t, job)
	require.Len(t, pictures, 3)
	both := pictures["Lift of the cam lobes against crank degrees"]
	for _, l := range out.Lobes {
		for what, says := range map[string]string{
			"opens": words.Event(rounded(*l.Opens)), "closes": words.Event(rounded(*l.Closes)), "centre": words.Centre(rounded(*l.Centre)),
		} {
			var size float64
			var side string
			_, err := fmt.Sscan(says, &size, &side)
			require.NoError(t, err)
			require.Regexp(t, fmt.Sprintf(`[:>, ]%s %.1f ± [\d.]+ %s\b`, what, size, side), both)
		}
		own := pictures[l.Name+": half-way between equal lifts"]
		drawn := regexp.MustCompile(`<path class="bar [^"]*" d="([^"]*)"`).FindStringSubmatch(own)
		require.Len(t, drawn, 2, "in one path")
		require.Equal(t, len(l.Levels), strings.Count(drawn[1], "h"), "a bar a level")
		require.Equal(t, 2*len(l.Levels), strings.Count(drawn[1], "v"), "with an end stroke at each end")
		require.Regexp(t, `>nose [\d.]+ ± [\d.]+ [AB]TDC<`, own)
	}
	require.Contains(t, both, fmt.Sprintf(">overlap %.1f ± ", out.Pairs[0].Overlap))
	require.Contains(t, both, ">checking lift 1.00 mm<")
	require.Contains(t, both, "its card: opens 12 BTDC, closes 48 ABDC, centre 108 ATDC")
	require.Contains(t, both, "its card: opens 50 BBDC, closes 10 ATDC, centre 110 BTDC")

	one, err := os.ReadFile(job)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(job, []byte(strings.Replace(string(one), exhaustLobe, "", 1)), 0o600))
	pictures = lobePictures(t, job)
	require.Len(t, pictures, 2)
	require.NotContains(t, pictures["Lift of the cam lobes against crank degrees"], "overlap ")

	require.Empty(t, lobePictures(t, diagnostician), "a job without lobes")
}

// rounded is an angle to the tenth that a page shows.
func rounded(degrees float64) geometry.Angle {
	return geometry.Angle(math.Round(degrees*10)/10) * geometry.Degree
}

// Every lobe can be drawn by its name, the first one when none is named, and in
// characters the details have them.
func TestALobeByItsName(t *testing.T) {
	job := lobesJob(t, inletLobe+exhaustLobe, nil)
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "inlet lobe"}, {[]string{"--lobe", "inlet lobe"}, "inlet lobe"}, {[]string{"--lobe", "exhaust lobe"}, "exhaust lobe"},
		{[]string{"--cylinder", "1"}, "inlet lobe"},
	} {
		file := filepath.Join(t.TempDir(), "lean.svg")
		code, _, errs := ev(append([]string{"find", job, "--picture", file, "--of", "lean"}, c.args...)...)
		require.Equal(t, answered, code, errs)
		require.Contains(t, mustRead(t, file), "<title>"+c.want+": half-way between equal lifts</title>")
	}
	_, text, _ := ev("find", job, "--details")
	require.Contains(t, text, "A inlet lobe   B exhaust lobe   * together   : overlap 22.2")
	require.Contains(t, text, "= checking lift 1.00 mm")
	_, text, _ = ev("find", job)
	require.NotContains(t, text, "* together")
}
