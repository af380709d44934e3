package advice

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion"
)

// sufficient reduces an option to what it needs and assesses it as it is written, until it is dry and not much more. Each assessment tells in which case to
// be cautious, and by how much its odds differ from that.
func (f *finder) sufficient(o option) (Set, bool) {
	const tries, ample = 4, 0.96
	odds, target := f.odds, 0.0
	var best, last Set
	found := false
	for range tries {
		changes, reduced := f.reduced(f.changes(o.of), odds, target)
		if !reduced && found {
			break
		}
		set, a, m := f.assessed(changes)
		if a == nil || alike(set, last) {
			break
		}
		last = set
		dry := set.Verdict == diffusion.Dry
		if dry {
			best, found = set, true
		}
		if dry && set.Probability <= ample || !dry && (found || !reduced) {
			break
		}
		odds = &a.Odds
		target = f.target(m, odds)
	}
	return best, found
}

// alike tells that two sets are written alike.
func alike(x, y Set) bool {
	return slices.EqualFunc(x.Changes, y.Changes, func(a, b Change) bool {
		return slices.EqualFunc(a.Parts, b.Parts, func(p, q Part) bool { return p.Key == q.Key && p.Is == q.Is })
	})
}

// target is the ratio that a model like one of which the odds are known must reach in their cautious case to be dry nine times in ten.
func (f *finder) target(m *diffusion.Model, o *diffusion.Odds) float64 {
	const spare, flat, furthest = 0.004, 0.15, 1.5
	gap := (diffusion.Likely + spare - o.Probability) / max(o.Density, flat)
	return f.march.Cautious([]*diffusion.Model{m}, o, f.settings)[0] - min(max(gap, -furthest), furthest)
}

// reduced takes each change back to what is needed, in the order of the kinds, and writes it down. It is false, and
// all are at their bounds, where even those are not enough.
func (f *finder) reduced(changes []Change, odds *diffusion.Odds, target float64) ([]Change, bool) {
	if math.IsNaN(target) || !(f.ratios([][]Change{changes}, odds)[0] <= target) {
		out, _ := f.written(changes)
		return out, false
	}
	order := make([]int, 0, len(changes))
	for i := range changes {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(changes[i].Kind, changes[k].Kind) })
	out := slices.Clone(changes)
	for _, i := range order {
		if i < len(f.forced) {
			continue
		}
		share, _ := f.needed(out, i, odds, target, 2)
		out[i] = changes[i].share(share)
		written, ok := f.design.Written(out[i])
		if !ok {
			return nil, false
		}
		out[i] = written
	}
	return out, true
}

// needed is the share of a change that is needed, with the others as they are: by eighths, and eighths of those, for some rounds. It is false where none is enough.
func (f *finder) needed(all []Change, i int, odds *diffusion.Odds, target float64, rounds int) (share float64, ok bool) {
	const parts = 8
	low, step := 0.0, 1.0
	for range rounds {
		step /= parts
		sets := make([][]Change, parts)
		for k := range sets {
			sets[k] = slices.Clone(all)
			sets[k][i] = all[i].share(low + step*float64(k+1))
		}
		k := slices.IndexFunc(f.ratios(sets, odds), func(x float64) bool { return x <= target })
		if k < 0 {
			return 1, false
		}
		low += step * float64(k)
	}
	return low + step, true
}

// written are changes as they are written down.
func (f *finder) written(all []Change) ([]Change, bool) {
	out := make([]Change, len(all))
	for i, c := range all {
		if i < len(f.forced) {
			out[i] = c
			continue
		}
		var ok bool
		if out[i], ok = f.design.Written(c); !ok {
			return nil, false
		}
	}
	return out, true
}

// assessed runs the design with changes as they are written; the assessment is nil where it has no answer.
func (f *finder) assessed(changes []Change) (Set, *diffusion.Assessment, *diffusion.Model) {
	if changes == nil {
		return Set{}, nil, nil
	}
	m, err := f.design.Changed(changes)
	if err != nil {
		return Set{}, nil, nil
	}
	a, err := f.march.Assess(m, f.settings)
	if err != nil {
		return Set{}, nil, nil
	}
	return Set{Changes: changes, Probability: a.Probability, Mean: a.Nozzle.Mean, Verdict: a.Verdict, Endurance: a.Endurance}, a, m
}
