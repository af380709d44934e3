package suits

import (
	"cmp"
	"slices"

	"strandry/diffusion"
	"strandry/scenarios/studies/size"
)

// Kind is what the dryer as it is drawn does for a material, doubt included.
type Kind int

const (
	// NeedsNone is within its limit nine times in ten with none of the zone that dries.
	NeedsNone Kind = iota
	// DryAsDrawn is within its limit nine times in ten on the path as it is.
	DryAsDrawn
	// UnsureAsDrawn is neither dry nor wet.
	UnsureAsDrawn
	// WetAsDrawn is within its limit one time in ten or less.
	WetAsDrawn
	// SoftensAsDrawn gives way before the nozzle, however dry it is.
	SoftensAsDrawn
	// Unknown is what has no answer on this path.
	Unknown
)

func (k Kind) String() string {
	return [...]string{"needs no drying", "dry as drawn", "unsure as drawn", "wet as drawn", "softens", "no answer"}[k]
}

// Kinds lists them in their order.
func Kinds() []Kind {
	return []Kind{NeedsNone, DryAsDrawn, UnsureAsDrawn, WetAsDrawn, SoftensAsDrawn, Unknown}
}

// Kind tells what the dryer as it is drawn does for the material.
func (r *Row) Kind() Kind {
	switch {
	case r.Class == Unanswered:
		return Unknown
	case r.Survives == diffusion.Softens:
		return SoftensAsDrawn
	case r.Verdict == diffusion.Wet:
		return WetAsDrawn
	case r.Verdict != diffusion.Dry:
		return UnsureAsDrawn
	case r.Class == AsItIs && r.Reliable.Outcome == size.Everywhere:
		return NeedsNone
	}
	return DryAsDrawn
}

// Reach is how far a length of the zone that can be built gets a material.
type Reach int

const (
	// Reliably is dry nine times in ten.
	Reliably Reach = iota
	// AtMedians is within its limit at the medians, but not nine times in ten.
	AtMedians
	// Beyond needs more than can be built.
	Beyond
	// Never is what no length dries.
	Never
)

// Reach tells how far lengths up to the longest [m] get the material.
func (r *Row) Reach(longest float64) Reach {
	switch {
	case r.ReliableWithin(longest):
		return Reliably
	case r.Class == Forbidden || r.Class == Unanswered:
		return Never
	case r.Class == TooLong:
		return Beyond
	}
	return AtMedians
}

// Built tells whether the material, not dry as drawn, is dry nine times in ten at another length that can be built.
func (r *Row) Built(longest float64) bool {
	return r.Wanting() && r.Reach(longest) == Reliably && r.Reliable.Outcome == size.Met
}

// Even tells whether the material, not dry as drawn, is about as likely dry as not at a length that can be built.
func (r *Row) Even(longest float64) bool { return r.Wanting() && r.Reach(longest) == AtMedians }

// Wanting tells whether the path as it is leaves the material wet, or it cannot be told.
func (r *Row) Wanting() bool { return r.Kind() == UnsureAsDrawn || r.Kind() == WetAsDrawn }

// AsDrawn are the rows of a view in the order of their kinds, the likeliest first.
func AsDrawn(rows []Row) []*Row {
	all := make([]*Row, len(rows))
	for i := range rows {
		all[i] = &rows[i]
	}
	slices.SortStableFunc(all, func(a, b *Row) int {
		return cmp.Or(cmp.Compare(a.Kind(), b.Kind()), cmp.Compare(b.Odds.Probability, a.Odds.Probability), cmp.Compare(a.Mean/a.Limit, b.Mean/b.Limit))
	})
	return all
}

// Pair is a material in both views.
type Pair struct{ Soaked, Opened *Row }

// Pairs are the materials in the order of [AsDrawn] in the first view.
func (s *Answer) Pairs() []Pair {
	var all []Pair
	for _, soaked := range AsDrawn(s.Soaked) {
		if i := slices.IndexFunc(s.Opened, func(r Row) bool { return r.Material.Same(&soaked.Material) }); i >= 0 {
			all = append(all, Pair{soaked, &s.Opened[i]})
		}
	}
	return all
}
