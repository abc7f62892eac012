package archive_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/archive"
)

// entry is a file of a zip that somebody made by hand.
type entry struct {
	zip.FileHeader
	packed []byte // as it stands in the zip
}

// stored is a file as a zip of honest headers has it.
func stored(name, text string) entry {
	e := entry{packed: []byte(text)}
	e.Name, e.Method = name, zip.Store
	e.CompressedSize64, e.UncompressedSize64 = uint64(len(text)), uint64(len(text))
	e.CRC32 = crc32.ChecksumIEEE([]byte(text))
	return e
}

// bomb is a file that says that it is small, and is so many MB unpacked.
func bomb(t *testing.T, name string, mb int) entry {
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestCompression)
	require.NoError(t, err)
	for range mb {
		_, err := w.Write(make([]byte, 1<<20))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	e := stored(name, "")
	e.Method, e.packed = zip.Deflate, packed.Bytes()
	e.CompressedSize64, e.UncompressedSize64 = uint64(packed.Len()), 10
	return e
}

// with is an entry with something changed.
func with(e entry, change func(*entry)) entry {
	change(&e)
	return e
}

func zipped(t testing.TB, entries ...entry) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, e := range entries {
		in, err := w.CreateRaw(&e.FileHeader)
		require.NoError(t, err)
		_, err = in.Write(e.packed)
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return out.Bytes()
}

func opened(t *testing.T, data []byte) fs.FS {
	t.Helper()
	fsys, err := archive.Open(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	return fsys
}

// A zip is a file system like any other.
func TestZipIsAFileSystem(t *testing.T) {
	fsys := opened(t, zipped(t, stored("bench/job.toml", "title"), stored("bench/sub/", ""), stored("bench/sub/one.csv", "angle"), stored("./photo.jpg", "")))
	require.NoError(t, fstest.TestFS(fsys, "bench/job.toml", "bench/sub/one.csv", "photo.jpg"))
	text, err := fs.ReadFile(fsys, "bench/job.toml")
	require.NoError(t, err)
	require.Equal(t, "title", string(text))
}

// Names that are not in UTF-8 are in code page 437, as Windows writes a German's folder; the
// letters are those of Python's codec cp437.
func TestNamesOfACodePage(t *testing.T) {
	old := func(name, text string) entry {
		return with(stored(name, text), func(e *entry) { e.NonUTF8 = true })
	}
	fsys := opened(t, zipped(t, old("M\x81ller Golf/job.toml", "title"), old("M\x81ller Golf/gro\xe1.csv", "angle"), old("M\x81ller Golf/\xff\x80.csv", ""), stored("Ünten.txt", "")))
	require.NoError(t, fstest.TestFS(fsys, "Müller Golf/job.toml", "Müller Golf/groß.csv", "Müller Golf/\u00a0Ç.csv", "Ünten.txt"))
	at, err := archive.Find(fsys, "job.toml")
	require.NoError(t, err)
	require.Equal(t, "Müller Golf/job.toml", at)
	data := zipped(t, old("M\x81ller/job.toml", ""), stored("Müller/job.toml", ""))
	_, err = archive.Open(bytes.NewReader(data), int64(len(data)))
	require.EqualError(t, err, `"Müller/job.toml": is in it twice: zip the folder again`)
}

// What no job's folder has is refused before anything is read.
func TestHostileZips(t *testing.T) {
	ok := stored("job.toml", "")
	many := make([]entry, archive.MostFiles+1)
	for i := range many {
		many[i] = stored(fmt.Sprintf("%d.csv", i), "")
	}
	long := make([]entry, 400)
	for i := range long {
		long[i] = stored(fmt.Sprintf("%06d%s", i, strings.Repeat("x", 60_000)), "")
	}
	const beside = "a name that leads out of the zip: zip the folder again, from beside it"
	const top = "a name that begins at the top of a disk: zip the folder again, from beside it"
	for says, entries := range map[string][]entry{
		`"../job.toml": ` + beside: {stored("../job.toml", "")},
		`"a/../../b": ` + beside:   {ok, stored("a/../../b", "")},
		`"a/..": ` + beside:        {ok, stored("a/..", "")},
		`"/etc/passwd": ` + top:    {ok, stored("/etc/passwd", "")},
		`"C:/job.toml": ` + top:    {stored("C:/job.toml", "")},
		`"a\\b.csv": a name with a backslash: zip the folder again, with / between folders`: {ok, stored(`a\b.csv`, "")},
		`"one.csv": a link: zip the folder again, with the file itself`:                     {ok, with(stored("one.csv", "/etc/passwd"), func(e *entry) { e.SetMode(0o777 | fs.ModeSymlink) })},
		`"one.csv": is not a plain file: leave it out`:                                      {ok, with(stored("one.csv", ""), func(e *entry) { e.SetMode(0o666 | fs.ModeNamedPipe) })},
		`"job.toml": is locked with a password: zip the folder again, without one`:          {with(ok, func(e *entry) { e.Flags |= 1 })},
		`"job.toml": is in it twice: zip the folder again`:                                  {ok, ok},
		`"./job.toml": is in it twice: zip the folder again`:                                nil,
		`"a": is in it twice, as a file and as a folder: zip the folder again`:              {ok, stored("a", ""), stored("a/b", "")},
		`"a/b": is in it twice: zip the folder again`:                                       {ok, stored("a/b/c", ""), stored("a/b", "")},
		`"` + strings.Repeat("x", 80) + `...": is in it twice: zip the folder again`:        {stored(strings.Repeat("x", 5000), ""), stored(strings.Repeat("x", 5000), "")},
		"holds more than 1,000 files: zip only the job file and the files that it names":    many,
		"holds more than 1,000 files: zip only the job file and the files that it  names":   long,
		"holds more than 64 MB unpacked: zip only the job file and the files that it names": {ok, with(ok, func(e *entry) { e.Name, e.UncompressedSize64 = "a", archive.MostBytes+1 })},
		"holds more than 64 MB unpacked: zip only the job file and the files that it names ": {with(ok, func(e *entry) { e.UncompressedSize64 = archive.MostBytes / 2 }),
			with(ok, func(e *entry) { e.Name, e.UncompressedSize64 = "a", 1<<63 })},
	} {
		if entries == nil {
			says, entries = strings.Replace(says, "./", "", 1), []entry{ok, stored("./job.toml", "")}
		}
		data := zipped(t, entries...)
		_, err := archive.Open(bytes.NewReader(data), int64(len(data)))
		require.EqualError(t, err, strings.ReplaceAll(strings.TrimSpace(says), "  ", " "))
	}
}

// What is no zip is refused, and what was cut off.
func TestNoZips(t *testing.T) {
	whole := zipped(t, stored("job.toml", "title"))
	for _, data := range [][]byte{nil, []byte("PK"), []byte("PK\x03\x04 and then no more of it"), whole[:len(whole)-1], whole[:len(whole)/2], make([]byte, 100_000)} {
		_, err := archive.Open(bytes.NewReader(data), int64(len(data)))
		require.EqualError(t, err, "is not a zip that can be read: zip the folder again")
	}
	require.True(t, archive.Is(bytes.NewReader(whole)))
	require.True(t, archive.Is(bytes.NewReader(zipped(t))))
	require.False(t, archive.Is(bytes.NewReader([]byte("PK"))))
	require.False(t, archive.Is(bytes.NewReader([]byte("title = \"PK\""))))
}

// A zip is unpacked no further than a job may be large, whatever its headers say: not one
// file of it, and not again and again.
func TestZipsThatUnpackToMore(t *testing.T) {
	fsys := opened(t, zipped(t, bomb(t, "one", 65)))
	read, err := fs.ReadFile(fsys, "one")
	require.ErrorContains(t, err, "damaged", "it is not as long as it says")
	require.LessOrEqual(t, len(read), 1<<20)

	fsys = opened(t, zipped(t, stored("a", strings.Repeat("x", 1<<20))))
	for range 64 {
		_, err = fs.ReadFile(fsys, "a")
		require.NoError(t, err)
	}
	_, err = fs.ReadFile(fsys, "a")
	require.ErrorContains(t, err, "the zip holds more than 64 MB unpacked")
}

// A file that cannot be unpacked says why, and so does one that is not there.
func TestDamagedFiles(t *testing.T) {
	fsys := opened(t, zipped(t,
		with(stored("changed", "title"), func(e *entry) { e.packed = []byte("tiple") }),
		with(stored("short", "title"), func(e *entry) { e.UncompressedSize64 = 6 }),
		with(stored("garbage", "title"), func(e *entry) { e.Method = zip.Deflate }),
		with(stored("odd", "title"), func(e *entry) { e.Method = 99 }),
	))
	for name, says := range map[string]string{
		"changed": "read changed: it is damaged in the zip: zip the folder again",
		"short":   "read short: it is damaged in the zip: zip the folder again",
		"garbage": "read garbage: it is damaged in the zip: zip the folder again",
		"odd":     "open odd: it is packed in a way that is not known here: zip the folder again",
	} {
		_, err := fs.ReadFile(fsys, name)
		require.EqualError(t, err, says)
	}
	for _, name := range []string{"none", "../changed", "/changed", ""} {
		_, err := fsys.Open(name)
		require.Error(t, err, name)
		require.NotErrorIs(t, err, io.EOF)
	}
}

// A job file is at the top, or in the one folder; else it is said what there is.
func TestFind(t *testing.T) {
	for _, c := range []struct{ names, want, says string }{
		{"job.toml one.csv", "job.toml", ""},
		{"bench/job.toml bench/one.csv", "bench/job.toml", ""},
		{"bench/job.toml readme.txt", "bench/job.toml", ""},
		{"job.toml bench/job.toml", "job.toml", ""},
		{"bench/job.toml __MACOSX/bench/job.toml .DS_Store .git/x", "bench/job.toml", ""},
		{"a/job.toml b/job.toml", "", "has no job.toml, at its top or in its one folder; it has a/ and b/"},
		{"a/b/job.toml", "", "has no job.toml, at its top or in its one folder; it has a/b/"},
		{"after.toml", "", "has no job.toml, at its top or in its one folder; it has after.toml"},
		{"x/after.toml x/after.csv x/y/z", "", "has no job.toml, at its top or in its one folder; it has x/after.csv, x/after.toml and x/y/"},
		{"Job.TOML", "", "has no job.toml, at its top or in its one folder; it has Job.TOML"},
		{"a b c d e f g", "", "has no job.toml, at its top or in its one folder; it has a, b, c, d, e and 2 more"},
		{"", "", "has no file in it: zip the job's folder"},
		{"__MACOSX/x", "", "has no file in it: zip the job's folder"},
	} {
		var entries []entry
		for _, name := range strings.Fields(c.names) {
			entries = append(entries, stored(name, ""))
		}
		at, err := archive.Find(opened(t, zipped(t, entries...)), "job.toml")
		require.Equal(t, c.want, at, c.names)
		if c.says != "" {
			require.EqualError(t, err, c.says)
		}
	}
}
