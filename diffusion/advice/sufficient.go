package advice

import (
	"cmp"
	"math"
	"slices"

	"golang.org/x/sync/errgroup"

	"strandry/diffusion"
)

// trial is a set of changes as it is written down, on trial.
type trial struct {
	Set
	design *diffusion.Design
	result diffusion.Result // at the medians
	odds   diffusion.Odds
}

// sufficient reduces an option to what it needs, and tries it as it is written until it is dry and not much more. The design point is that of the
// design with the changes; what its odds differ from it is learnt from each trial.
func (f *finder) sufficient(o option) (Set, bool) {
	const tries, ample = 3, 0.96
	point, changes, ok := f.settled(f.changes(o.of))
	if !ok {
		return Set{}, false
	}
	var best Set
	var last []Change
	found := false
	for range tries {
		if changes == nil || alike(changes, last) {
			break
		}
		last = changes
		t, ok := f.tried(changes)
		if !ok {
			break
		}
		dry := t.Verdict == diffusion.Dry
		if dry {
			best, found = t.Set, true
		}
		if dry && t.Probability <= ample || !dry && found {
			break
		}
		point = t.odds.DesignPoint
		if changes, ok = f.reduced(f.changes(o.of), &point, f.target(&t)); !ok && found {
			break
		}
	}
	return best, found
}

// settled reduces changes at the design point of the design with them, which is found in two rounds. It is false where even their bounds are far from
// enough then.
func (f *finder) settled(bounds []Change) (diffusion.DesignPoint, []Change, bool) {
	const rounds, far = 2, 0.1
	point := f.designPoint
	changes, _ := f.reduced(bounds, &point, 0)
	for range rounds {
		if changes == nil {
			break
		}
		m, err := f.draft.Changed(changes)
		if err != nil {
			return point, nil, false
		}
		if point, err = f.march.DesignPoint(m, f.settings); err != nil || !(f.ratios([][]Change{bounds}, &point)[0] <= far) {
			return point, nil, false
		}
		before := changes
		if changes, _ = f.reduced(bounds, &point, 0); alike(changes, before) {
			break
		}
	}
	return point, changes, changes != nil
}

// alike tells that two sets of changes are written alike.
func alike(x, y []Change) bool {
	return slices.EqualFunc(x, y, func(a, b Change) bool {
		return slices.EqualFunc(a.Parts, b.Parts, func(p, q Part) bool { return p.Key == q.Key && p.Is == q.Is })
	})
}

// target is the ratio that a model like the one on trial must reach at its design point to be dry nine times in ten.
func (f *finder) target(t *trial) float64 {
	const spare, flat, furthest = 0.004, 0.15, 1.5
	gap := (diffusion.NineInTen + spare - t.odds.Probability) / max(t.odds.Density, flat)
	return f.march.AtDesignPoint([]*diffusion.Design{t.design}, &t.odds.DesignPoint, f.settings)[0] - min(max(gap, -furthest), furthest)
}

// reduced takes each change back to what is needed, in the order of the kinds, and writes it down. It is false, and
// all are at their bounds, where even those are not enough; they are nil where they cannot be written.
func (f *finder) reduced(changes []Change, point *diffusion.DesignPoint, target float64) ([]Change, bool) {
	if math.IsNaN(target) || !(f.ratios([][]Change{changes}, point)[0] <= target) {
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
		share, _ := f.needed(out, i, point, target)
		written, ok := f.draft.Written(changes[i].share(share))
		if !ok {
			return nil, false
		}
		out[i] = written
	}
	return out, true
}

// needed is the share of a change that is needed, with the others as they are, to some hundredth: by thirds, since two marches take no longer than one. It
// is false where even all of it is not enough.
func (f *finder) needed(all []Change, i int, point *diffusion.DesignPoint, target float64) (share float64, ok bool) {
	const rounds = 4
	enough := func(shares ...float64) int {
		sets := make([][]Change, len(shares))
		for k, share := range shares {
			sets[k] = slices.Clone(all)
			sets[k][i] = all[i].share(share)
		}
		return slices.IndexFunc(f.ratios(sets, point), func(x float64) bool { return x <= target })
	}
	low, high := 0.0, 1.0
	for range rounds {
		third := (high - low) / 3
		switch enough(low+third, low+2*third) {
		case 0:
			high = low + third
		case 1:
			low, high = low+third, low+2*third
		default:
			low += 2 * third
		}
	}
	return high, high < 1 || enough(1) == 0
}

// written are changes as they are written down; false where one of them cannot be.
func (f *finder) written(all []Change) ([]Change, bool) {
	out := make([]Change, len(all))
	for i, c := range all {
		if i < len(f.forced) {
			out[i] = c
			continue
		}
		var ok bool
		if out[i], ok = f.draft.Written(c); !ok {
			return nil, false
		}
	}
	return out, true
}

// tried finds the odds of the design with changes as they are written, and judges as [diffusion.March.Assess] does; false where it has no answer.
func (f *finder) tried(changes []Change) (trial, bool) {
	m, err := f.draft.Changed(changes)
	if err != nil {
		return trial{}, false
	}
	t := trial{Set: Set{Changes: changes}, design: m}
	var medians errgroup.Group
	medians.Go(func() error { return f.beside.Run(&m.Model, f.settings, &t.result) })
	t.odds, err = f.march.Odds(m, f.settings)
	if another := medians.Wait(); err != nil || another != nil {
		return trial{}, false
	}
	t.Probability, t.Mean, t.Endurance = t.odds.Probability, t.result.Nozzle.Mean, t.result.Endures(&m.Model)
	off := 0.0
	if t.Verdict = t.odds.Verdict(0, t.Endurance.Survival); t.Verdict == diffusion.Dry && t.Mean > 0 {
		band, err := f.march.NumericalErrorOf(&t.result, &m.Model, f.settings)
		if err != nil {
			return trial{}, false
		}
		off = band / t.Mean
	}
	t.Verdict = t.odds.Verdict(off, t.Endurance.Survival)
	if t.Verdict == diffusion.Dry && t.result.Condenses(&m.Model) {
		t.Verdict = diffusion.Unsure // what condenses is not followed
	}
	return t, true
}
