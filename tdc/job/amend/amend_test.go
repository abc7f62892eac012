package amend_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/toml"
)

const two = "\ufeff[[cylinder]]\r\nnumber = 1 # front\r\n[[cylinder]]\r\nnumber = 3\r\n"

func edited(t *testing.T, text string, edits ...amend.Edit) string {
	t.Helper()
	for _, edit := range edits {
		next, err := edit([]byte(text))
		require.NoError(t, err)
		text = string(next)
	}
	return text
}

// What is seen of a cylinder comes into its own lists, and goes again.
func TestSeen(t *testing.T) {
	with := edited(t, two, amend.Seen(3, "stops", "[-31.5, 24]"))
	require.Equal(t, two+"stops = [[-31.5, 24]]\r\n", with)
	with = edited(t, with, amend.Seen(3, "stops", "[-31, 24]"))
	require.Equal(t, two+"stops = [[-31.5, 24], [-31, 24]]\r\n", with)
	without := edited(t, with, amend.Unseen(3, "stops", "[-31.5, 24]"))
	require.Equal(t, two+"# undone: stops [-31.5, 24]\r\nstops = [[-31, 24]]\r\n", without)
	require.Equal(t, "\ufeff[[cylinder]]\r\nnumber = 1 # front\r\nreadings = \"c.csv\"\r\n[[cylinder]]\r\nnumber = 3\r\n",
		edited(t, two, amend.Of(1, "readings", `"c.csv"`)))
}

func TestGone(t *testing.T) {
	_, err := amend.Seen(2, "stops", "[1, 2]")([]byte(two))
	require.EqualError(t, err, "the job file has no [[cylinder]] with number = 2 any more")
	_, err = amend.Unseen(1, "stops", "[1, 2]")([]byte(two))
	require.EqualError(t, err, "stops [1, 2] is no longer in the job file")
	_, err = amend.Without("mark", "name", "pin")([]byte(two))
	require.EqualError(t, err, "the job file has no [[mark]] with name = pin any more")
}

// A table comes below all others with the file's line ends, and goes again.
func TestTables(t *testing.T) {
	with := edited(t, two, amend.With([]byte("\n[[mark]]\nname = \"pin \\\"A\\\"\"\n")))
	require.Equal(t, two+"\r\n[[mark]]\r\nname = \"pin \\\"A\\\"\"\r\n", with)
	require.Equal(t, two+"\r\n# undone:\r\n# [[mark]]\r\n# name = \"pin \\\"A\\\"\"\r\n", edited(t, with, amend.Without("mark", "name", `pin "A"`)))
	sets := "[[mark]]\nname = \"a\"\n[[mark]]\nname = \"a\"\nset = 2\n"
	require.Equal(t, "[[mark]]\nname = \"a\"\n# undone:\n# [[mark]]\n# name = \"a\"\n# set = 2\n", edited(t, sets, amend.Without("mark", "name", "a")), "the last of several sets")
	require.Equal(t, "a = 1\n\n[b]\n", edited(t, "a = 1", amend.With([]byte("\n[b]\n"))))
}

// What a key said before stays as a comment.
func TestKeyed(t *testing.T) {
	const lobe = "[[lobe]]\nname = \"inlet\"\nlift = 1.0 # checking\n"
	require.Equal(t, "[[lobe]]\nname = \"inlet\"\n# before: lift = 1.0\nlift = 1.2 # checking\nopens = \"12 BTDC\"\n",
		edited(t, lobe, amend.Keyed("lobe", "inlet", amend.Key{Name: "lift", Value: "1.2"}, amend.Key{Name: "opens", Value: `"12 BTDC"`})))
}

// What was read in several sets gets its key in each table, and edits go one after another.
func TestAll(t *testing.T) {
	const sets = "\ufeff[[mark]]\nname = \"a\"\non = \"cam\"\n[[mark]]\nname = \"b\"\non = \"cam\"\n[[mark]]\nname = \"a\"\non = \"cam\"\nset = 2\n"
	on := func(name string) amend.Edit {
		return amend.All("mark", name, amend.Key{Name: "on", Value: `"inlet cam"`})
	}
	const was, is = "# before: on = \"cam\"\n", "on = \"inlet cam\"\n"
	require.Equal(t, "\ufeff[[mark]]\nname = \"a\"\n"+was+is+"[[mark]]\nname = \"b\"\non = \"cam\"\n[[mark]]\nname = \"a\"\n"+was+is+"set = 2\n", edited(t, sets, on("a")))
	require.Equal(t, edited(t, sets, on("a"), on("b")), edited(t, sets, amend.Together(on("a"), on("b"))))
	_, err := amend.Together(on("a"), amend.Without("mark", "name", "c"))([]byte(sets))
	require.ErrorContains(t, err, "no [[mark]] with name = c")
	_, err = on("a")([]byte("[[mark\n"))
	require.Error(t, err)
}

// A sheet is made where there is none; each key goes and comes, and all else stays.
func TestSheet(t *testing.T) {
	shop := amend.Key{Name: "shop", Value: `"A"`}
	by := amend.Key{Name: "by", Value: `"K"`}
	none := func(name string) amend.Key { return amend.Key{Name: name} }
	require.Equal(t, "a = 1\r\n\r\n[sheet]\r\nshop = \"A\"\r\nby = \"K\"\r\n", edited(t, "a = 1\r\n", amend.Sheet(shop, by)))
	require.Equal(t, "\ufeff\n[sheet]\nby = \"K\"\n", edited(t, "\ufeff", amend.Sheet(by)))
	const two = "[sheet] # mine\nshop = \"B\" # old\nby = \"K\"\n\n[drive]\n"
	require.Equal(t, "[sheet] # mine\n# before: shop = \"B\"\nshop = \"A\" # old\nby = \"K\"\n\n[drive]\n", edited(t, two, amend.Sheet(shop)))
	require.Equal(t, "[sheet] # mine\nshop = \"B\" # old\n# undone:\n# by = \"K\"\n\n[drive]\n", edited(t, two, amend.Sheet(none("by"))))
	require.Equal(t, two, edited(t, two, amend.Sheet(none("customer"))), "what is not there need not go")
	require.Equal(t, "", edited(t, "", amend.Sheet(none("customer"))))
	gone := edited(t, two, amend.Sheet(none("by"), none("shop")))
	require.Equal(t, "# undone:\n# [sheet] # mine\n# shop = \"B\" # old\n# undone:\n# by = \"K\"\n\n[drive]\n", gone)
	_, err := amend.Sheet(shop)([]byte("sheet = 1\n"))
	require.ErrorContains(t, err, "expected a table: write [sheet] on a line of its own")
	_, err = amend.Sheet(shop)([]byte("sheet = \n"))
	require.Error(t, err)
}

// A photo is found by its file.
func TestWithoutPhoto(t *testing.T) {
	const photos = "[[photo]]\nfile = \"a.jpg\"\n[[photo]]\nfile = \"b.jpg\"\n"
	require.Equal(t, "# undone:\n# [[photo]]\n# file = \"a.jpg\"\n[[photo]]\nfile = \"b.jpg\"\n", edited(t, photos, amend.Without("photo", "file", "a.jpg")))
}

// A table that is there once gets a key, and is made where it is none; what a key said before, and
// one that is taken out, stay as comments.
func TestTable(t *testing.T) {
	with := func(text, value string) string {
		out, err := amend.Table("gauge", amend.Key{Name: "same_zero", Value: toml.Literal(value)})([]byte(text))
		require.NoError(t, err)
		return string(out)
	}
	made := with("title = \"a\"\n", "true")
	require.Equal(t, "title = \"a\"\n\n[gauge]\nsame_zero = true\n", made)
	require.Contains(t, with(made, "false"), "# before: same_zero = true\nsame_zero = false\n")
	require.Contains(t, with(made, ""), "# undone:\n# same_zero = true\n")
	require.Equal(t, "title = 1\n", with("title = 1\n", ""))
	_, err := amend.Table("gauge", amend.Key{Name: "same_zero", Value: "true"})([]byte("gauge = 1\n"))
	require.ErrorContains(t, err, "write [gauge] on a line of its own")
}
