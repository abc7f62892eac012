package job

import (
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

// sameName refuses a mark that has another one's name: a mark is told from the others by
// it, in this file and in the next. One that was read in another set is the same mark,
// and says of it what the first of them says, or nothing.
func (d *decoder) sameName(t *toml.Table, m *mark.Mark) error {
	name, _ := t.Get("name")
	var first *mark.Mark
	for i := range d.job.Marks {
		switch other := &d.job.Marks[i]; {
		case other.Name != m.Name:
		case m.Off != nil || other.Off != nil:
			return name.Wrong("another mark has this name: expected a name of its own")
		case evidence.SetOf(other.Set) == evidence.SetOf(m.Set):
			return name.Wrong("another mark has this name: expected a name of its own, or set = %d where it was read again with the protractor moved", evidence.SetOf(m.Set)+1)
		case first == nil:
			first = other
		}
	}
	if first == nil {
		return nil
	}
	if err := contradicts(t, *m, *first); err != nil {
		return err
	}
	m.ShouldBe, m.Unknown, m.Unstated, m.Zero = first.ShouldBe, first.Unknown, first.Unstated, first.Zero
	m.Limit, m.HasLimit, m.Certain, m.Source = first.Limit, first.HasLimit, first.Certain, first.Source
	return nil
}

// contradicts refuses a mark that says something else than the first of its name.
func contradicts(t *toml.Table, m, first mark.Mark) error {
	for _, said := range []struct {
		key  string
		same bool
	}{
		{"on", m.On == first.On},
		{"against", m.Reference() == first.Reference()},
		{"should_be", m.ShouldBe == first.ShouldBe && m.Unknown == first.Unknown && !first.Unstated},
		{"zero", m.Zero == first.Zero},
		{"limit", m.Limit == first.Limit && first.HasLimit},
		{"certain", m.Certain == first.Certain},
		{"source", m.Source == first.Source},
	} {
		if v, has := t.Get(said.key); has && !said.same {
			return v.Wrong("the mark of this name above, of set %d, has not the same: expected the same here, or a name of its own", evidence.SetOf(first.Set))
		}
	}
	return nil
}

// lobeAgain is sameName of a lobe: one that was read in another set is the same lobe, and
// says of its card what the first of them says, or nothing. Each set may have a gauge of its
// own.
func (d *decoder) lobeAgain(t *toml.Table, l *lobe.Lobe) error {
	name, _ := t.Get("name")
	var first *lobe.Lobe
	for i := range d.job.Lobes {
		switch other := &d.job.Lobes[i]; {
		case other.Name != l.Name:
		case evidence.SetOf(other.Set) == evidence.SetOf(l.Set):
			return name.Wrong("another lobe has this name: expected a name of its own, or set = %d where it was read again with the protractor moved", evidence.SetOf(l.Set)+1)
		case first == nil:
			first = other
		}
	}
	if first == nil {
		return nil
	}
	if err := contradictsLobe(t, *l, *first); err != nil {
		return err
	}
	l.Cylinder, l.Card, l.Limit, l.HasLimit, l.Source = first.Cylinder, first.Card, first.Limit, first.HasLimit, first.Source
	l.Ratio, l.Lash, l.Slack = first.Ratio, first.Lash, first.Slack
	return nil
}

// contradictsLobe refuses a lobe that says something else than the first of its name.
func contradictsLobe(t *toml.Table, l, first lobe.Lobe) error {
	for _, said := range []struct {
		key  string
		same bool
	}{
		{"on", l.On == first.On},
		{"valve", l.Valve == first.Valve},
		{"cylinder", l.Cylinder == first.Cylinder},
		{"lift", l.Card.Lift == first.Card.Lift},
		{"opens", l.Card.Opens == first.Card.Opens && first.Card.HasEvents},
		{"closes", l.Card.Closes == first.Card.Closes && first.Card.HasEvents},
		{"centre", l.Card.Centre == first.Card.Centre && first.Card.HasCentre},
		{"top", l.Card.Top == first.Card.Top},
		{"limit", l.Limit == first.Limit && first.HasLimit},
		{"source", l.Source == first.Source},
		{"ratio", l.Ratio == first.Ratio},
		{"lash", l.Lash == first.Lash},
		{"slack", l.Slack == first.Slack},
	} {
		if v, has := t.Get(said.key); has && !said.same {
			return v.Wrong("the lobe of this name above, of set %d, has not the same: expected the same here, or a name of its own", evidence.SetOf(first.Set))
		}
	}
	return nil
}
