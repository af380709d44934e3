package scenarios

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"strandry/materials/text/nearest"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Axis is a key with the values that a sweep gives it.
type Axis struct {
	Key    Key
	Unit   string    // that the file wrote; "" for a plain number
	Values []float64 // [SI]; nil for an axis of names
	Names  []string  // such as materials; nil for an axis of numbers

	written []string
}

// Len is the number of values, or of names.
func (a Axis) Len() int { return len(a.written) }

// Setting returns the setting of the value with the given index.
func (a Axis) Setting(i int) Setting { return Setting{Key: a.Key.Name, Value: a.written[i]} }

// Most axes of a sweep, and most values of one.
const mostAxes, mostValues = 3, 10000

// axesOf reads [[vary]]. All keys must have been registered before.
func (r *reading) axesOf(root section) []Axis {
	var axes []Axis
	tables := root.subs("vary")
	for i, table := range tables {
		t := section{r: r, table: table}
		key, ok := r.named(table, r.words)
		if ok && slices.ContainsFunc(axes, func(other Axis) bool { return other.Key.Name == key.Name }) {
			table.Fault("key", "varied twice", "one [[vary]] for each key")
		}
		if i == mostAxes {
			table.Fault("", "too many axes", "up to three [[vary]]")
		}
		axis := Axis{Key: key}
		switch which := t.atMostOne("from", "values"); {
		case which == "values" && slices.Contains(r.words, key.Name):
			axis.named(r, table)
		case which == "values":
			axis.listed(table, ok)
		case slices.Contains(r.words, key.Name):
			table.Fault("", "there is nothing between names", "values, a list of names")
		case which == "from":
			axis.spaced(table, ok)
		default:
			table.Fault("", "the values are missing", "from, to and count, or values")
		}
		for _, known := range [...]string{"to", "count", "spacing"} {
			table.Has(known)
		}
		axes = append(axes, axis)
		r.axes = append(r.axes, table)
	}
	return axes
}

// named reads the key that a table speaks of: that of a number, or one of words.
func (r *reading) named(t *strict.Table, words []string) (Key, bool) {
	if !t.Require("key") {
		return Key{}, false
	}
	name, ok := t.Text("key")
	if !ok {
		return Key{}, false
	}
	if k, ok := named(r.keys, name); ok {
		return k, true
	}
	if slices.Contains(words, name) {
		return Key{Name: name, Zone: r.owner(name)}, true
	}
	known := slices.Concat(r.names(), words)
	t.Report("key", strict.Fault{Problem: "no number of the scenario has this name",
		Allowed: "a key of the scenario, such as " + strings.Join(likeliest(name, known), ", "), Nearest: nearest.Name(name, known)})
	return Key{}, false
}

// likeliest are a few of the keys: those nearest to a name, or the first lengths where none is near.
func likeliest(name string, keys []string) []string {
	const most = 3
	near := nearest.Keys(name, keys, most)
	if len(near) == 0 {
		lengths := slices.DeleteFunc(slices.Clone(keys), func(key string) bool { return !strings.HasSuffix(key, ".length") })
		near = lengths[:min(most, len(lengths))]
	}
	return near
}

// read reads a value of the axis from its table.
func (k Key) read(t *strict.Table, at string) (float64, bool) {
	if k.Plain() {
		return t.Number(at, k.limits)
	}
	return t.Quantity(at, k.Dimension, k.limits)
}

// named takes the names of an axis of names; tryAxes tells whether they are known.
func (a *Axis) named(r *reading, t *strict.Table) {
	names, ok := t.Texts("values")
	if ok && (len(names) == 0 || len(names) > mostValues) {
		t.Fault("values", "no values, or too many", "1 to 10000 values")
	}
	for _, name := range names {
		name = strings.TrimSpace(name)
		if a.Key.Name == materialKey {
			name = r.understood(t.Path(), name)
		}
		a.written = append(a.written, name)
	}
	a.Names = a.written
}

// listed takes the values one by one; sound tells whether the key is known.
func (a *Axis) listed(t *strict.Table, sound bool) {
	texts, ok := t.Texts("values")
	if !ok || !sound {
		return
	}
	if len(texts) == 0 || len(texts) > mostValues {
		t.Fault("values", "no values, or too many", "1 to 10000 values")
	}
	kind := text
	if a.Key.Plain() {
		kind = bare
	}
	for _, value := range texts {
		one := overlay{Setting: Setting{Key: a.Key.Name, Value: value}}
		x, _ := a.Key.read(one.as(kind))
		for _, f := range one.faults() {
			t.Report("values", strict.Fault{Given: f.Given, Problem: f.Problem, Allowed: f.Allowed, Nearest: f.Nearest})
		}
		a.Values, a.written = append(a.Values, x), append(a.written, strings.TrimSpace(value))
	}
	if len(texts) > 0 {
		a.Unit = a.Key.Dimension.Unit(texts[0])
	}
}

// spaced takes a first value, a last one and those between.
func (a *Axis) spaced(t *strict.Table, sound bool) {
	t.Require("to", "count")
	count, ok := t.Integer("count", strict.Limits{Min: 2, Max: mostValues})
	if from, to, ratio, both := a.Key.ends(t, sound); both && ok {
		a.fill(t, from, to, count, ratio)
	}
}

// ends are the first and the last value of a key in a table, and whether what lies between goes by ratio; ok is false where that is a fault. sound tells whether the key is known.
func (k Key) ends(t *strict.Table, sound bool) (from, to float64, ratio, ok bool) {
	spacing, given := t.Choice("spacing", []string{"linear", "log"})
	if !sound || t.Has("spacing") && !given {
		return 0, 0, false, false
	}
	from, fromOK := k.read(t, "from")
	to, toOK := k.read(t, "to")
	if !fromOK || !toOK {
		return 0, 0, false, false
	}
	if from == to {
		t.Fault("to", "the same as from", "another value")
		return 0, 0, false, false
	}
	if ratio = spacing == "log"; !ratio {
		return from, to, false, true
	}
	if k.Dimension.Name() == quantity.Temperature().Name() {
		t.Fault("spacing", "a temperature has no ratio to step by", "linear")
		return 0, 0, false, false
	}
	if from <= 0 || to <= 0 {
		t.Fault("spacing", "zero and negative values have no ratio to step by", "linear, or from and to above zero")
		return 0, 0, false, false
	}
	return from, to, true, true
}

// digits that a value between the ends is written with.
const digits = 12

func (a *Axis) fill(t *strict.Table, from, to float64, count int, ratio bool) {
	if !a.Key.Plain() {
		first, _ := t.Text("from")
		a.Unit = a.Key.Dimension.Unit(first)
	}
	for i := range count {
		share := float64(i) / float64(count-1)
		x := from + (to-from)*share
		if ratio {
			x = from * math.Pow(to/from, share)
		}
		switch i {
		case 0:
			x = from
		case count - 1:
			x = to
		}
		written := a.Key.write(x, a.Unit)
		a.Values, a.written = append(a.Values, a.Key.parsed(written, x)), append(a.written, written)
	}
}

func (k Key) write(x float64, unit string) string {
	if k.Plain() {
		return quantity.Number(x, digits)
	}
	return k.Dimension.Format(x, unit, digits)
}

// parsed is the value that a text means, so that an axis says what a reading finds.
func (k Key) parsed(written string, otherwise float64) float64 {
	x, err := k.Dimension.Parse(written)
	if k.Plain() {
		x, err = strconv.ParseFloat(written, 64)
	}
	if err != nil {
		return otherwise
	}
	return x
}

// fewListed is how many listed values are tried one by one.
const fewListed = 50

// tried lists the places on an axis whose values are tried with the rest of the file: the ends of
// numbers, and each value of a list, of a long list of numbers the least and the greatest.
func (a Axis) tried(listed bool) []int {
	all := make([]int, len(a.written))
	for i := range all {
		all[i] = i
	}
	switch {
	case len(all) < 2 || listed && (a.Names != nil || len(all) <= fewListed):
		return all
	case listed && len(a.Values) == len(all):
		return []int{slices.Index(a.Values, slices.Min(a.Values)), slices.Index(a.Values, slices.Max(a.Values))}
	}
	return []int{0, len(all) - 1}
}

// tryAxes reads the scenario with values of each axis, so that one that contradicts the rest of
// the file is found before the sweep. That the strand would melt is no such fault: where it does is what an axis
// of temperatures, or of materials, may ask.
func (s *Scenario) tryAxes(tables []*strict.Table) error {
	var all strict.Faults
	for i, axis := range s.Vary {
		t := tables[i]
		for _, j := range axis.tried(t.Has("values")) {
			at := "values"
			switch {
			case t.Has("values"):
			case j == 0:
				at = "from"
			default:
				at = "to"
			}
			all = append(all, s.refuses(axis.Setting(j), t, at, t.Path()+"."+at)...)
		}
	}
	return all.Err()
}

// refuses are the faults of the scenario with a setting, told at a line and a key of a table. That the strand would melt is none: what is asked there says so itself.
func (s *Scenario) refuses(set Setting, t *strict.Table, line, key string) strict.Faults {
	_, err := s.With(set)
	found, _ := err.(strict.Faults)
	found = withoutMelting(found)
	for i := range found {
		f := &found[i]
		f.File, f.Line, f.Key, f.Given = t.File(), t.Line(line), key, strict.Quoted(set.Value)
	}
	return found
}
