package scenarios

import (
	"fmt"
	"math"
	"slices"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Free is a key that may be chosen, with what it may be: one of some values or names, which are those of the axis, or anything between two ends.
type Free struct {
	Axis
	From, To float64 // ends [SI], From below To; zero for values and names
	Ratio    bool    // what lies between goes by ratio

	ends [2]string // as they are written
}

// Continuous tells that anything between the ends may be chosen.
func (f *Free) Continuous() bool { return f.written == nil }

// Written is the setting of a value between the ends [SI], rounded to what can be built, but for the ends themselves.
func (f *Free) Written(x float64) Setting {
	const digits = 3
	value := quantity.Number(x, digits)
	switch {
	case x == f.From:
		value = f.ends[0]
	case x == f.To:
		value = f.ends[1]
	case !f.Key.Plain():
		value = f.Key.Dimension.Format(x, f.Unit, digits)
	}
	return Setting{Key: f.Key.Name, Value: value}
}

// Value is that of a setting of a continuous key [SI].
func (f *Free) Value(set Setting) float64 { return f.Snapped(f.Key.parsed(set.Value, f.From)) }

// Snapped is the value [SI] that is meant by [Free.Written] of a value between the ends.
func (f *Free) Snapped(x float64) float64 {
	if x <= f.From || x >= f.To {
		return math.Min(math.Max(x, f.From), f.To)
	}
	return math.Min(math.Max(f.Key.parsed(f.Written(x).Value, x), f.From), f.To)
}

// Search says how the cheapest design is looked for.
type Search struct {
	Seed    int
	Budget  int     // designs that are looked at at most
	Running float64 // time of running that counts in the cost [s]
}

// mostFree is how many keys may be chosen at once.
const mostFree = 8

// freeOf reads [[free]]. All keys must have been registered before.
func (r *reading) freeOf(root section) []Free {
	var all []Free
	for i, table := range root.subs("free") {
		t := section{r: r, table: table}
		key, ok := r.named(table, r.words)
		if ok && slices.ContainsFunc(all, func(other Free) bool { return other.Key.Name == key.Name }) {
			table.Fault("key", "chosen twice", "one [[free]] for each key")
		}
		if ok && key.Name == materialKey {
			table.Fault("key", "what is to be dried is given, not chosen", "a key of the dryer or the feed; strandry suits tries all materials")
		}
		if i == mostFree {
			table.Fault("", "too many keys to choose", fmt.Sprintf("up to %d [[free]]", mostFree))
		}
		f := Free{Axis: Axis{Key: key}}
		switch which := t.atMostOne("from", "values"); {
		case which == "values" && slices.Contains(r.words, key.Name):
			f.named(r, table)
			once(table, f.written)
		case which == "values":
			f.listed(table, ok)
			once(table, f.Values)
		case slices.Contains(r.words, key.Name):
			table.Fault("", "there is nothing between names and counts", "values, a list of them")
		case which == "from":
			f.between(table, ok)
		default:
			table.Fault("", "what it may be is missing", "from and to, or values")
		}
		for _, known := range [...]string{"to", "spacing"} {
			table.Has(known)
		}
		all = append(all, f)
		r.freed = append(r.freed, table)
	}
	return all
}

// once refuses a value that stands there twice.
func once[T comparable](t *strict.Table, values []T) {
	for i, v := range values {
		if slices.Index(values, v) != i {
			t.Fault("values", "a value stands there twice", "each value once")
			return
		}
	}
}

// between takes the ends of what a key may be.
func (f *Free) between(t *strict.Table, sound bool) {
	t.Require("to")
	from, to, ratio, ok := f.Key.ends(t, sound)
	if !ok {
		return
	}
	texts := [2]string{f.Key.end(t, "from"), f.Key.end(t, "to")}
	if !f.Key.Plain() {
		f.Unit = f.Key.Dimension.Unit(texts[0])
	}
	if from > to {
		from, to = to, from
		texts[0], texts[1] = texts[1], texts[0]
	}
	f.From, f.To, f.Ratio, f.ends = from, to, ratio, texts
}

// end is one as it is written.
func (k Key) end(t *strict.Table, at string) string {
	if k.Plain() {
		const digits = 16
		x, _ := t.Number(at, strict.Limits{})
		return quantity.Number(x, digits)
	}
	text, _ := t.Text(at)
	return text
}

// searching reads [search].
func (r *reading) searching(root section, free []Free) Search {
	t := root.sub("search")
	s := Search{Seed: t.whole("seed", 0, 1_000_000, 1), Budget: t.whole("budget", 40, 100_000, usualBudget)}
	const years = 20 * 365.25 * 86400
	s.Running, _ = t.quantity("running", quantity.Duration(), strict.Limits{Min: 0, Max: years, Unit: "h"})
	if !t.absent() && len(free) == 0 {
		root.fault("search", "there is nothing to look for", "[search] together with [[free]], a key that may be chosen")
	}
	return s
}

const usualBudget = 400

// tryFree reads the scenario with each name that may be chosen, so that one which is not known is found before the search. What contradicts the rest of the file is
// left to the search: with the other keys as they are chosen then it may not.
func (s *Scenario) tryFree(tables []*strict.Table) error {
	var all strict.Faults
	for i, f := range s.Free {
		if f.Names == nil {
			continue
		}
		for j := range f.Len() {
			set := f.Setting(j)
			_, err := s.With(set)
			found, _ := err.(strict.Faults)
			for _, one := range found {
				if one.Key == set.Key {
					one.File, one.Line, one.Key, one.Given = tables[i].File(), tables[i].Line("values"), tables[i].Path()+".values", strict.Quoted(set.Value)
					all = append(all, one)
				}
			}
		}
	}
	return all.Err()
}
