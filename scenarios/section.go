package scenarios

import (
	"fmt"
	"math"
	"strings"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// section is one table of the file with the settings laid over it.
type section struct {
	r     *reading
	table *strict.Table // nil when the file has no such table
	path  string        // by names
	zone  string        // the zone that it is in; "" for none
}

func (s section) name(key string) string {
	switch "" {
	case s.path:
		return key
	case key:
		return s.path
	}
	return s.path + "." + key
}

// sub is the table at a key.
func (s section) sub(key string) section {
	out := section{r: s.r, path: s.name(key), zone: s.zone}
	if s.table != nil {
		out.table = s.table.Table(key)
	}
	return out
}

// subs are the tables of the array at a key.
func (s section) subs(key string) []*strict.Table {
	if s.table == nil {
		return nil
	}
	return s.table.Tables(key)
}

// has tells whether the key, or something below it, is in the file or set.
func (s section) has(key string) bool {
	present := s.table != nil && s.table.Has(key)
	return present || s.r.overlaid(s.name(key), s.zone)
}

// absent tells that the table is not there, neither in the file nor by a setting.
func (s section) absent() bool { return s.table == nil && !s.r.overlaid(s.path, s.zone) }

// atMostOne returns the one key present of several that exclude each other, ""
// for none; more are a fault.
func (s section) atMostOne(keys ...string) string {
	found := ""
	for _, key := range keys {
		if !s.has(key) {
			continue
		}
		if found != "" {
			s.fault(key, "given together with "+found, "one of "+strings.Join(keys, ", "))
			continue
		}
		found = key
	}
	return found
}

// place returns the table that holds the value of a key, and the key's name there:
// the setting, or the file.
func (s section) place(key string, kind literal) (*strict.Table, string) {
	if o := s.r.overlay(s.name(key)); o != nil {
		if s.table != nil {
			s.table.Has(key) // known, though not read
		}
		return o.as(kind)
	}
	return s.table, key
}

func (s section) fault(key, problem, allowed string) {
	s.report(key, strict.Fault{Problem: problem, Allowed: allowed})
}

// report records a fault where the value of the key comes from.
func (s section) report(key string, f strict.Fault) {
	if o := s.r.overlay(s.name(key)); o != nil {
		table, at := o.as(text)
		table.Report(at, f)
		return
	}
	if s.table != nil {
		s.table.Report(key, f)
		return
	}
	f.File, f.Key = s.r.document.File, s.name(key)
	s.r.faults = append(s.r.faults, f)
}

// quantity reads a value with a unit. ok is false when it is absent, or a fault.
func (s section) quantity(key string, dim quantity.Dimension, limits strict.Limits) (si float64, ok bool) {
	si, ok, _ = s.quantityOrWord(nil, key, dim, limits)
	return si, ok
}

// quantityOrWord is quantity for a key that also takes one of some words: said is that word, or "".
func (s section) quantityOrWord(words []string, key string, dim quantity.Dimension, limits strict.Limits) (si float64, ok bool, said string) {
	known := s.r.register(Key{Name: s.name(key), Zone: s.zone, Dimension: dim, limits: limits})
	if table, at := s.place(key, text); table != nil {
		si, ok, said = table.QuantityOr(words, at, dim, limits)
	}
	if ok {
		known.Value, known.Known = si, true
	}
	return si, ok, said
}

// quantityOr is quantity with a default, which it notes as assumed.
func (s section) quantityOr(key string, dim quantity.Dimension, limits strict.Limits, otherwise float64) float64 {
	given := s.has(key)
	si, ok := s.quantity(key, dim, limits)
	if ok {
		return si
	}
	known := &s.r.keys[len(s.r.keys)-1]
	known.Value, known.Known = otherwise, true
	if !given {
		s.r.assume(s.name(key) + ": " + dim.Format(otherwise, limits.Unit, 6))
	}
	return otherwise
}

// number reads a plain number.
func (s section) number(key string, limits strict.Limits, otherwise float64) float64 {
	known := s.r.register(Key{Name: s.name(key), Zone: s.zone, limits: limits, Value: otherwise, Known: true})
	table, at := s.place(key, bare)
	if table == nil {
		return otherwise
	}
	x, ok := table.Number(at, limits)
	if !ok {
		return otherwise
	}
	known.Value = x
	return x
}

// numberGiven reads a plain number that has no default.
func (s section) numberGiven(key string, limits strict.Limits) (x float64, ok bool) {
	known := s.r.register(Key{Name: s.name(key), Zone: s.zone, limits: limits})
	if table, at := s.place(key, bare); table != nil {
		x, ok = table.Number(at, limits)
	}
	if ok {
		known.Value, known.Known = x, true
	}
	return x, ok
}

// whole reads a count. It is no key for what seeks values between, such as a size.
func (s section) whole(key string, least, most, otherwise int) int {
	s.r.words = append(s.r.words, s.name(key))
	table, at := s.place(key, bare)
	if table == nil || !table.Has(at) {
		return otherwise
	}
	x, ok := table.Number(at, strict.Limits{Min: float64(least), Max: float64(most)})
	if !ok {
		return otherwise
	}
	if x != math.Trunc(x) {
		s.fault(key, "not a whole number", fmt.Sprintf("%d to %d", least, most))
	}
	return int(x)
}

func (s section) choice(key string, allowed ...string) (string, bool) {
	s.r.words = append(s.r.words, s.name(key))
	table, at := s.place(key, text)
	if table == nil {
		return "", false
	}
	return table.Choice(at, allowed)
}

func (s section) text(key string) (string, bool) {
	table, at := s.place(key, text)
	if table == nil {
		return "", false
	}
	return table.Text(at)
}

func (s section) truth(key string, otherwise bool) bool {
	s.r.words = append(s.r.words, s.name(key))
	table, at := s.place(key, bare)
	if table == nil || !table.Has(at) {
		return otherwise
	}
	value, _ := table.Bool(at)
	return value
}

// required is quantity for a key that must be there.
func (s section) required(key string, dim quantity.Dimension, limits strict.Limits) (float64, bool) {
	if !s.has(key) && !s.absent() {
		s.fault(key, "missing", "a "+dim.Name()+" with one of "+strings.Join(dim.Units(), ", "))
	}
	return s.quantity(key, dim, limits)
}

// peek is the value [SI] of a key that was read before, and whether it is known.
func (s section) peek(key string) (float64, bool) {
	k, _ := named(s.r.keys, s.name(key))
	return k.Value, k.Known
}
