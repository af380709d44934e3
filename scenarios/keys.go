package scenarios

import (
	"math"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Key is a number in a scenario that a [Setting] may replace.
type Key struct {
	Name      string             // path by names, such as zone.drum.length or strand.storage.1.duration
	Zone      string             // the zone that it belongs to, whose name may hold dots; "" for none
	Dimension quantity.Dimension // its zero value for a plain number
	Value     float64            // in force [SI]; zero when not Known
	Known     bool               // it is given, or has a default
	limits    strict.Limits
}

// Plain tells whether the key takes a number without a unit.
func (k Key) Plain() bool { return k.Dimension.Name() == "" }

// FeedKey is the key by which the scenario states how fast the strand runs.
func (s *Scenario) FeedKey() Key {
	for _, name := range [...]string{"feed.speed", "feed.flow", "feed.bead.speed"} {
		if k, ok := s.Key(name); ok && k.Known {
			return k
		}
	}
	return Key{}
}

// Limits tells the least and the greatest that the scenario takes for a key [SI]; ok is false
// where the key has no fixed ends.
func (s *Scenario) Limits(k Key) (low, high float64, ok bool) {
	section := math.Pi * s.Model.Radius * s.Model.Radius
	switch k.Name {
	case "feed.speed":
		return slowest, fastest, true
	case "feed.flow":
		return slowest * section, fastest * section, true
	}
	l := k.limits
	return l.Min, l.Max, l.Max > l.Min
}

// Setting gives the key a value [SI], written in its usual unit with so many
// significant digits (1 to 17).
func (k Key) Setting(x float64, digits int) Setting {
	if k.Plain() {
		return Setting{Key: k.Name, Value: quantity.Number(x, digits)}
	}
	unit := k.limits.Unit
	if unit == "" {
		unit = k.Dimension.Usual()
	}
	return Setting{Key: k.Name, Value: k.Dimension.Format(x, unit, digits)}
}

// Parse reads a value of the key as a user writes it and returns it in SI. The error is
// [strict.Faults] under the key's name.
func (k Key) Parse(written string) (float64, error) {
	kind := text
	if k.Plain() {
		kind = bare
	}
	one := overlay{Setting: Setting{Key: k.Name, Value: written}}
	free := k
	free.limits = strict.Limits{}
	table, at := one.as(kind)
	x, _ := free.read(table, at)
	if faults := one.faults(); len(faults) > 0 {
		return 0, faults
	}
	return x, nil
}
