package materials

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"strandry/materials/text/inert"
	"strandry/materials/text/strict"
)

// Read reads a material from a TOML text; file is its name in messages and the
// source of values given without one, both escaped where it cannot be printed. With a line base = "pa6" the text states only
// what differs from the polymer that base returns for that name; base nil means
// [Lookup]. The error is [strict.Faults], every fault with its line.
func Read(file string, text []byte, base func(string) (Polymer, error)) (Polymer, error) {
	file = inert.Escaped(file)
	root, collector, err := strict.Parse(file, text)
	if err != nil {
		return Polymer{}, err
	}
	if base == nil {
		base = Lookup
	}
	var p Polymer
	complete := !root.Has("base")
	if name, ok := root.Text("base"); ok {
		if p, err = base(name); err != nil {
			if p, err = standIn(root, err); err != nil {
				return Polymer{}, collector.SoFar()
			}
		}
	} else if !complete {
		return Polymer{}, collector.SoFar()
	}
	readInto(root, &p, complete)
	p.ID, p.Origin = strings.TrimSuffix(filepath.Base(file), ".toml"), file
	if err := collector.Finish(); err != nil {
		return Polymer{}, err
	}
	return p, nil
}

// standIn reports a base that cannot be had, and returns the nearest one so that the
// rest of the file can be judged all the same.
func standIn(root *strict.Table, err error) (Polymer, error) {
	var unknown *UnknownError
	if !errors.As(err, &unknown) {
		root.Fault("base", "cannot be read: "+strings.ReplaceAll(err.Error(), "\n", " | "), "")
		return Polymer{}, err
	}
	root.Report("base", strict.Fault{Problem: "unknown material", Allowed: unknown.Choices(), Nearest: unknown.Nearest})
	return Lookup(append(unknown.Candidates, unknown.Nearest)[0])
}

// ReadTable reads from a table of another file, such as [strand.properties] of a
// scenario, what differs from base. Faults go to the table's own collector.
func ReadTable(t *strict.Table, base Polymer) Polymer {
	p := base
	if readInto(t, &p, false); !p.Same(&base) {
		p.Origin = t.File()
	}
	return p
}

// readInto lays what the table states over p; complete asks for everything.
func readInto(t *strict.Table, p *Polymer, complete bool) {
	base := *p
	words := []*string{&p.Name, &p.Family, &p.Summary}
	for i, key := range []string{"name", "family", "summary"} {
		if text, ok := t.Text(key); ok {
			*words[i] = text
		}
	}
	if complete {
		t.Require("name", "family", "summary")
	}
	readStructure(t, p, complete)
	readHydrolyses(t, p, complete)
	readProperties(t, p.properties(), complete)
	readModuli(t, p)
	restated := readDiffusivity(t, &p.Diffusivity, complete)
	readSorption(t, &p.Sorption, complete)
	p.Doubts = append(slices.DeleteFunc(slices.Clone(p.Doubts), func(n Note) bool { return p.settles(n.About, &base) }), notes(t, "doubt")...)
	if restated {
		p.Uncorrelate(t.File())
	}
	p.Cautions = append(slices.Clone(p.Cautions), notes(t, "caution")...)
	checkTemperatures(t, p)
}

// settles tells whether a polymer states a property itself that is another's in what it differs from, which settles the notes about it.
func (p *Polymer) settles(about Subject, base *Polymer) bool {
	a, b := &p.Sorption, &base.Sorption
	switch about {
	case AboutDiffusivity:
		return p.Diffusivity.ReferenceValue != base.Diffusivity.ReferenceValue
	case AboutSorption:
		return a.Form != b.Form || a.Saturation != b.Saturation || a.Monolayer != b.Monolayer || a.Linear != b.Linear || a.Power != b.Power
	case AboutLimit:
		return p.PrintingLimit != base.PrintingLimit || p.MouldingLimit != base.MouldingLimit
	}
	return false
}

func readProperties(t *strict.Table, all []property, complete bool) {
	for _, one := range all {
		if complete && one.optional == nil {
			t.Require(one.key)
		}
		value, ok := readValue(t, one.key, one.measure)
		switch {
		case !ok:
		case one.optional != nil:
			*one.optional = &value
		default:
			*one.into = value
		}
	}
}

// readValue reads a bare number or text, which the user gives, or a table with
// value, low, high, kind and source.
func readValue(t *strict.Table, key string, m measure) (Value, bool) {
	if !t.Has(key) {
		return Value{}, false
	}
	if !t.IsTable(key) {
		x, ok := m.read(t, key)
		return Value{Value: x, Low: x, High: x, Kind: Given, Source: t.File()}, ok
	}
	return readDoubted(t.Table(key), m)
}

func readDoubted(t *strict.Table, m measure) (Value, bool) {
	t.Require("value")
	x, ok := m.read(t, "value")
	v := Value{Value: x, Low: x, High: x, Kind: readKind(t), Source: readSource(t)}
	low, hasLow := m.read(t, "low")
	high, hasHigh := m.read(t, "high")
	if ok && hasLow {
		if v.Low = low; low > x {
			t.Fault("low", "low is above value", "low <= value <= high")
			ok = false
		}
	}
	if ok && hasHigh {
		if v.High = high; high < x {
			t.Fault("high", "high is below value", "low <= value <= high")
			ok = false
		}
	}
	return v, ok
}

func readKind(t *strict.Table) Kind {
	word, ok := t.Choice("kind", kinds())
	if !ok {
		return Given
	}
	return Kind(slices.Index(kinds(), word))
}

func readSource(t *strict.Table) string {
	if source, ok := t.Text("source"); ok {
		return source
	}
	return t.File()
}

// readRange reads { from, to } into a range, when it is present and sound.
func readRange(t *strict.Table, key string, m measure, into *Range) {
	inner := t.Table(key)
	if inner == nil {
		return
	}
	inner.Require("from", "to")
	from, ok := m.read(inner, "from")
	to, okTo := m.read(inner, "to")
	if !ok || !okTo {
		return
	}
	if from >= to {
		inner.Fault("to", "not above from", "from < to")
		return
	}
	*into = Range{Min: from, Max: to}
}

func notes(t *strict.Table, key string) []Note {
	var all []Note
	for _, one := range t.Tables(key) {
		one.Require("text")
		text, _ := one.Text("text")
		n := Note{Text: text, Source: readSource(one), Kind: readKind(one)}
		if word, ok := one.Choice("about", subjects()); ok {
			n.About = Subject(slices.Index(subjects(), word))
		}
		all = append(all, n)
	}
	return all
}
