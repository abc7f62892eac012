package marking

import (
	"strconv"

	"evendrop/tdc/job/toml"
)

// Drive is the drive as a job file has it that has none yet; empty where nothing was asked
// of it.
func (f *Form) Drive() []byte {
	var w toml.Writer
	if f.layout != "" {
		w.Table("drive")
		w.Key("layout", toml.Quote(f.layout), "")
		given(&w, "crank_sprocket", f.sprocket)
	}
	return w.Bytes()
}

// Mark is the mark as a job file has it.
func (f *Form) Mark() []byte {
	var w toml.Writer
	w.Next("mark")
	w.Key("name", toml.Quote(f.mark.Name), "")
	w.Key("on", toml.Quote(f.mark.On), "")
	if f.isRead() {
		f.writeRead(&w)
	} else {
		f.writeOff(&w)
	}
	given(&w, "limit", f.limit)
	return w.Bytes()
}

func (f *Form) writeRead(w *toml.Writer) {
	w.Key("read", toml.List(f.read...), "")
	if f.set > 1 {
		w.Key("set", toml.Literal(strconv.Itoa(f.set)), "")
	}
	w.Key("after_reading", toml.Literal(strconv.Itoa(f.seen)), "")
	given(w, "should_be", f.shouldBe)
}

func (f *Form) writeOff(w *toml.Writer) {
	if f.mark.Against != "" {
		w.Key("against", toml.Quote(f.mark.Against), "")
	}
	w.Key("off", toml.Number(f.off.value), "late positive")
	w.Key("in", toml.Quote(string(f.off.unit)), "")
	given(w, "known_to", f.knownTo)
	given(w, "radius", f.radius)
	given(w, "pitches", f.pitches)
	if f.shouldBe != "0" {
		given(w, "should_be", f.shouldBe)
	}
}

// given writes a key that was given.
func given(w *toml.Writer, key string, value toml.Literal) {
	if value != "" {
		w.Key(key, value, "")
	}
}
