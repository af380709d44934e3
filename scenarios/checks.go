package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
	"strandry/scenarios/masses"
)

// Check is a length of strand that was weighed two or three times at the machine as it was built, to be set against the model.
type Check struct {
	Title     string  // "check 2" where it has none
	Before    float64 // mass as it sets off, after any storage [kg]; zero where it was not weighed
	After     float64 // mass after the path, or as it was cut there [kg]; zero where it was not weighed
	Dried     float64 // mass when it was dried out [kg]; zero where it was not
	Step      float64 // of the scale: each mass is rounded to it [kg], above 0
	Stepped   bool    // the step was given; else it is one unit of the last digit of the masses
	Left      float64 // content that drying out left in the strand [kg/kg dry]
	LeftKnown bool    // else nothing is known of it
	Zone      int     // index of the zone of the path behind which it left the machine
	Cut       bool    // it left there, by the key at; else at the nozzle

	feed float64 // speed [m/s]; zero for that of the scenario
	set  []Setting
}

const (
	mostChecks  = 50
	mostTakenUp = 1.2 // mass after the path over that before: more is no water
	mostLeft    = 0.1 // content that is still called dried out [kg/kg dry]
)

// checks reads [[check]], once the zones are known.
func (r *reading) checks(root section) []Check {
	var all []Check
	for i, t := range root.subs("check") {
		if i == mostChecks {
			t.Fault("", "too many checks", fmt.Sprintf("up to %d [[check]]", mostChecks))
		}
		c := Check{Title: fmt.Sprintf("check %d", i+1), Zone: len(r.path) - 1}
		if title, ok := t.Text("title"); ok {
			c.Title = title
		}
		if len([]rune(c.Title)) > longestName {
			t.Fault("title", "no title that fits on a line", "up to 60 letters")
		}
		c.masses(t)
		c.feed, _ = t.Quantity("feed", quantity.Speed(), strict.Limits{Min: slowest, Max: fastest, Unit: "mm/s"})
		if at, ok := t.Choice("at", r.path); ok {
			c.Zone, c.Cut = slices.Index(r.path, at), true
		}
		if set := t.Table("set"); set != nil {
			c.settings(set, "")
			r.effective(set, &c)
		}
		c.ofStart(t)
		all, r.checked = append(all, c), append(r.checked, t)
	}
	return all
}

// massKeys are those of what was weighed.
func massKeys() []string { return []string{"before", "after", "dried"} }

// masses reads what was weighed, and how well.
func (c *Check) masses(t *strict.Table) {
	limits := strict.Limits{Min: masses.Lightest, Max: masses.Heaviest, Unit: "g"}
	read, given := 0, 0
	for i, key := range massKeys() {
		mass, ok := t.Quantity(key, quantity.Mass(), limits)
		*[...]*float64{&c.Before, &c.After, &c.Dried}[i] = mass
		if t.Has(key) {
			given++
		}
		if !ok {
			continue
		}
		read++
		text, _ := t.Text(key)
		if step := quantity.Mass().Step(text); step > 0 && (c.Step == 0 || step < c.Step) {
			c.Step = step
		}
	}
	const coarsest = 0.1 // [kg]
	if t.Has("resolution") {
		c.Step, c.Stepped = t.Quantity("resolution", quantity.Mass(), strict.Limits{Max: coarsest, ExclusiveMin: true, Unit: "g"})
	}
	if t.Has("left") {
		c.Left, c.LeftKnown = t.Quantity("left", quantity.Fraction(), strict.Limits{Max: mostLeft, Unit: "%"})
		if !t.Has("dried") {
			t.Fault("left", "nothing was dried out", "left together with dried")
		}
	}
	switch {
	case given < 2:
		t.Fault("", "one mass alone tells nothing of the water", "two or three of before, after, dried")
	case read == given && c.Step > 0:
		c.sound(t)
	}
}

// sound reports masses that no piece of strand can have had.
func (c *Check) sound(t *strict.Table) {
	show := func(kg float64) string { return quantity.Mass().Format(kg, "g", shownDigits) }
	const converted = 1e-6 // of a step, lost on the way to SI
	lightest, step := 0.0, c.Step*(1+converted)
	for i, mass := range [...]float64{c.Before, c.After, c.Dried} {
		if mass > 0 && (lightest == 0 || mass < lightest) {
			lightest = mass
		}
		if wet := i < 2 && c.Dried > 0 && mass > 0; wet && mass+step < c.Dried {
			t.Fault("dried", "heavier than "+massKeys()[i]+", "+show(mass)+", as if drying out had added water", "up to that mass, but for rounding")
		} else if wet && mass-step > c.Dried*(1+maxContent) {
			t.Fault("dried", "the strand would have held more than half as much water: "+massKeys()[i]+" is "+show(mass), "at least two thirds of that mass")
		}
	}
	switch {
	case c.Step > lightest:
		t.Fault("resolution", "coarser than the lightest mass, "+show(lightest)+", is heavy", "up to that mass")
	case c.Before == 0 || c.After == 0:
	case c.After-step > c.Before*mostTakenUp:
		t.Fault("after", "no strand takes up a fifth of its mass on its way: before is "+show(c.Before), "up to 1.2 times that mass, of the same length of strand")
	case c.Before-step > c.After*(1+maxContent):
		t.Fault("after", "the strand would have lost more than half as much water: before is "+show(c.Before), "at least two thirds of that mass, of the same length of strand")
	}
}

// settings takes what is set, by names between quotes or one below the other.
func (c *Check) settings(t *strict.Table, path string) {
	for _, key := range t.Keys() {
		if t.IsTable(key) {
			c.settings(t.Table(key), path+key+".")
			continue
		}
		if text, ok := t.Text(key); ok {
			c.set = append(c.set, Setting{Key: path + key, Value: text})
		}
	}
}

// effective reports what is set without an effect on what was weighed.
func (r *reading) effective(t *strict.Table, c *Check) {
	if len(t.Keys()) == 0 {
		t.Fault("", "nothing is set", "keys of the scenario with their values, such as "+`"zone.drum.temperature" = "76 °C"`)
	}
	for i, s := range c.set {
		report := func(problem, allowed string) {
			t.Report("", strict.Fault{Given: strict.Quoted(s.Key), Problem: problem, Allowed: allowed})
		}
		zone := slices.Index(r.path, r.owner(s.Key))
		switch {
		case slices.ContainsFunc(c.set[:i], func(other Setting) bool { return other.Key == s.Key }):
			report("set twice", "each key once")
		case s.Key == materialKey:
			report("a check is of the strand of its scenario", "another scenario for another material")
		case strings.HasPrefix(s.Key, "feed.") && c.feed > 0:
			report("given together with feed", "one of them")
		case unweighed(s.Key):
			report("it does not act on the water in the strand", "a key of the room, the strand, the feed or a zone")
		case zone > c.Zone:
			report("the strand had left the machine before that zone", "keys of zones up to "+r.path[c.Zone])
		}
	}
}

// unweighed tells that a key does not act on how much water a strand holds.
func unweighed(name string) bool {
	return idle(name) || strings.HasPrefix(name, "nozzle.") || name == "strand.limit" || strings.Contains(name, ".shape.") ||
		slices.Contains([]string{propertyPath + ".printing_limit", propertyPath + ".moulding_limit"}, name)
}

// ofStart reports what cannot act where only the start was measured.
func (c *Check) ofStart(t *strict.Table) {
	if t.Has("after") {
		return
	}
	for _, key := range [...]string{"feed", "at"} {
		if t.Has(key) {
			t.Fault(key, "nothing was weighed after the path", key+" together with after")
		}
	}
	for _, s := range c.set {
		if !strings.HasPrefix(s.Key, "strand.") && !strings.HasPrefix(s.Key, "room.") {
			t.Report("set", strict.Fault{Given: strict.Quoted(s.Key), Problem: "nothing was weighed after the path", Allowed: "keys of the room and the strand"})
		}
	}
}

// At is the scenario as it was when the strand of a check was weighed. The error is [strict.Faults].
func (s *Scenario) At(c *Check) (*Scenario, error) {
	out := s
	var err error
	if len(c.set) > 0 {
		if out, err = s.With(c.set...); err != nil {
			return nil, err
		}
	}
	if c.feed > 0 {
		const digits = 17
		k := out.FeedKey() // in each of its forms the speed goes with it
		return out.With(k.Setting(k.Value*c.feed/out.Model.Speed, digits))
	}
	return out, nil
}

// tryChecks reads the scenario as it was at each check, so that what is set there meets the rest of the file at once.
func (s *Scenario) tryChecks(tables []*strict.Table) error {
	var all strict.Faults
	for i := range s.Checks {
		c, t := &s.Checks[i], tables[i]
		_, err := s.At(c)
		found, _ := err.(strict.Faults)
		at := "set"
		if len(c.set) == 0 {
			at = "feed"
		}
		for _, f := range found {
			f.File, f.Line = t.File(), t.Line(at)
			f.Problem = "as set at " + t.Path() + ": " + f.Problem
			all = append(all, f)
		}
	}
	return all.Err()
}
