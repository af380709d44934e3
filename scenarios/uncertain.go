package scenarios

import (
	"math"
	"slices"
	"strings"

	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Uncertainty is a key of which the value is in doubt.
type Uncertainty struct {
	Key Key
	materials.Value
	Normal bool // else log-normal
}

// At is the value [SI] at a standard normal deviate, within what the key takes.
func (u *Uncertainty) At(deviate float64) float64 {
	x := u.LogNormal(deviate)
	if u.Normal {
		x = u.Value.Normal(deviate)
	}
	if l := u.Key.limits; l.Max > l.Min {
		x = min(max(x, l.Min), l.Max)
	}
	return x
}

// uncertain reads [[uncertain]]: a standard deviation, or the two ends between which the value lies nine times in ten.
func (r *reading) uncertain(root section) []Uncertainty {
	var all []Uncertainty
	for _, table := range root.subs("uncertain") {
		key, ok := r.named(table, nil)
		if ok && slices.ContainsFunc(all, func(other Uncertainty) bool { return other.Key.Name == key.Name }) {
			table.Fault("key", "uncertain twice: an [[uncertain]] above has this key already", "one [[uncertain]] for each key")
		}
		u := Uncertainty{Key: key}
		switch which := (section{r: r, table: table}).atMostOne("deviation", "low"); {
		case !ok:
		case idle(key.Name):
			table.Fault("key", "a doubt about it would change no answer: it does not act on the strand", "a key of the room, the strand, the feed, the nozzle or a zone")
			ok = false
		case !key.Known:
			table.Fault("key", "the scenario has no value for it, and a doubt is about a value", "a key that has a value; that is taken for the median")
			ok = false
		case which == "low":
			ok = u.ends(table, r.overlay(key.Name) != nil)
		default:
			if !table.Has("deviation") {
				table.Fault("deviation", "missing: how much it is in doubt", "deviation, which is one standard deviation, or low and high, between which it lies nine times in ten")
			}
			u.deviates(table)
		}
		if ok {
			all = append(all, u)
			r.doubts = append(r.doubts, table)
		}
	}
	return all
}

// deviates reads a standard deviation.
func (u *Uncertainty) deviates(table *strict.Table) {
	width := u.Key
	width.limits = strict.Limits{Max: math.Inf(1), ExclusiveMin: true}
	if u.temperature() {
		width.Dimension = quantity.TemperatureDifference()
	}
	deviation, _ := width.read(table, "deviation")
	reach := materials.EndDeviate * deviation
	u.Value, u.Normal = materials.Value{Value: u.Key.Value, Low: u.Key.Value - reach, High: u.Key.Value + reach}, true
}

// ends reads low and high. They are those of the file's own value: another one that is laid over it, and does not lie between them, is believed,
// and ok is false.
func (u *Uncertainty) ends(table *strict.Table, overlaid bool) (ok bool) {
	if !table.Has("high") {
		table.Fault("high", "missing: low is one end of the doubt, and high the other", "low < value < high")
	}
	u.Value.Value = u.Key.Value
	low, okLow := u.Key.read(table, "low")
	high, okHigh := u.Key.read(table, "high")
	u.Low, u.High, u.Normal = low, high, u.temperature() || !(low > 0)
	between := low < u.Key.Value && u.Key.Value < high
	if okLow && okHigh && !between && !overlaid {
		table.Fault("low", "the value of "+u.Key.Name+", "+u.Key.Setting(u.Key.Value, shownDigits).Value+", does not lie between low and high", "low < value < high; the value is taken for the median")
	}
	return between
}

// shownDigits are those of a value in a message.
const shownDigits = 6

func (u *Uncertainty) temperature() bool {
	return u.Key.Dimension.Name() == quantity.Temperature().Name()
}

// idle tells that a key does not act on the strand, or is a doubt itself.
func idle(name string) bool {
	for _, of := range []string{"numerics.", "build.", "store.", "opening."} {
		if strings.HasPrefix(name, of) {
			return true
		}
	}
	property, of := strings.CutPrefix(name, propertyPath+".")
	return of && slices.Contains([]string{"diffusivity.scatter", "glass_transition", "softening", "drying_temperature", "nozzle_temperature"}, property)
}

// own lays an uncertainty over one of the ranges that the odds draw from by themselves; false if there is none for the key.
func (s *Scenario) own(u *Uncertainty) bool {
	m := &s.Design
	p := &m.Material
	low, high := u.At(-materials.EndDeviate), u.At(materials.EndDeviate)
	name, of := strings.CutPrefix(u.Key.Name, propertyPath+".")
	switch {
	case u.Key.Name == "strand.limit":
		m.LimitStated, m.LimitRange = true, materials.Range{Min: low, Max: high}
		return true
	case of && name == "diffusivity.value":
		p.Diffusivity.Between(low, high)
		p.Uncorrelate(s.File)
		return true
	}
	v := map[string]*materials.Value{
		"printing_limit": &p.PrintingLimit, "moulding_limit": &p.MouldingLimit, "diffusivity.beta": &p.Diffusivity.Beta,
		"sorption.mixing_enthalpy": &p.Sorption.MixingEnthalpy, "sorption.saturation": &p.Sorption.Saturation, "sorption.monolayer": &p.Sorption.Monolayer,
	}[name]
	if !of || v == nil {
		return false
	}
	v.Low, v.High = low, high
	if v == &p.Diffusivity.Beta {
		p.Uncorrelate(s.File)
	}
	return true
}

// tryDoubts reads the scenario with both ends of each uncertainty, so that one that contradicts the rest of the file is found at once.
func (s *Scenario) tryDoubts(tables []*strict.Table) error {
	var all strict.Faults
	for i, u := range s.Uncertain {
		for _, end := range [...]float64{-materials.EndDeviate, materials.EndDeviate} {
			for _, f := range s.refuses(u.Key.Setting(u.At(end), shownDigits), tables[i], "key", tables[i].Path()) {
				f.Problem = "at this end of its doubt the scenario has a fault: " + f.Problem
				all = append(all, f)
			}
		}
	}
	return all.Err()
}
