package scenes

import (
	"fmt"
	"strings"
)

// longest is how many characters a name may have (DEVELOPERS.md, conventions).
const longest = 200

// stretched is a text repeated up to the longest that a name may be.
func stretched(text string) string {
	letters := []rune(strings.Repeat(text, longest/len([]rune(text))+1))
	return strings.TrimSpace(string(letters[:longest]))
}

// longNames is twelve marks, with names as long as they may be, of many words and of one.
func longNames() Scene {
	b := four(7, 3.3)
	text := head(stretched("Invented engine with a title that somebody typed and did not stop "), stretched("Unbrokenengine")) + first + oneCam
	members := []string{"flywheel", "pulley", "crank wheel", "cam"}
	for i := range 12 {
		name := fmt.Sprintf("%d %s", i+1, stretched("mark that stands where nobody can read it "))
		if i%3 == 0 {
			name = fmt.Sprintf("%d%s", i+1, stretched("markwithoutanyblank"))
		}
		on, late := members[i%len(members)], 0.2*float64(i%3)
		switch on {
		case "cam":
			text += flats(cut(name), on, late, 0.8, 2)
		case "flywheel":
			text += b.mark(cut(name), on, 0, late+3, 1)
		default:
			text += b.mark(cut(name), on, float64(-6*i), late, 1.5)
		}
	}
	return Scene{Name: "07-long-names", Shows: "twelve marks with the longest names, of many words and of one", files: []file{
		{JobFile, text}, {firstFile, b.readings()},
	}}
}

func cut(name string) string { return strings.TrimSpace(string([]rune(name)[:longest])) }

// rightToLeft is names in Hebrew and Arabic: "an invented engine", "locking pin", "pulley
// mark", "mark on the cam".
func rightToLeft() Scene {
	b := four(8, 3.3)
	return Scene{Name: "08-right-to-left", Shows: "names and title in Hebrew and Arabic", files: []file{
		{JobFile, head("מנוע מומצא (invented) 1.6, פין נעילה בספק", "محرك مخترع ١٫٦") + first + oneCam +
			b.mark("פין נעילה של גלגל התנופה", "flywheel", 0, 2.8, 1) + b.mark("علامة البكرة (pulley) 2", "pulley", 0, 0.2, 2) +
			b.mark("סימן 60-2", "crank wheel", -84, 2.8, 1.5) + flats("علامة عمود الكامات", "cam", 0.4, 0.6, 2)},
		{firstFile, b.readings()},
	}}
}
