package advice

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion"
)

// changes are those of some indices, behind the forced ones.
func (f *finder) changes(of []int) []Change {
	out := slices.Clone(f.forced)
	for _, i := range of {
		out = append(out, f.possible[i])
	}
	return out
}

// ratios are the logarithms of content over limit with sets of changes at a design point; infinite where there is no answer.
func (f *finder) ratios(sets [][]Change, point *diffusion.DesignPoint) []float64 {
	designs := make([]*diffusion.Design, len(sets))
	for i, set := range sets {
		designs[i] = changed(f.design, set, f.room)
	}
	out := f.march.AtDesignPoint(designs, point, f.settings)
	for i, x := range out {
		if math.IsNaN(x) || !sound(designs[i]) {
			out[i] = math.Inf(1)
		}
	}
	return out
}

// looked marches options at their bounds, and keeps the nearest: a set of fewer changes unless more are worth it.
func (f *finder) looked(sets [][]int) []option {
	all := make([][]Change, len(sets))
	for i, of := range sets {
		all[i] = f.changes(of)
	}
	out := make([]option, len(sets))
	for i, x := range f.ratios(all, &f.designPoint) {
		out[i] = option{sets[i], x}
		const worth = 0.02
		if len(f.forced)+len(sets[i]) <= most && x < f.nearest.ratio-worth*float64(max(0, len(sets[i])-len(f.nearest.of))) {
			f.nearest = out[i]
		}
	}
	return out
}

// options hands over the sets that may do, of one change, of two and of three, each size in the order of [finder.promising], until use is content. All
// sets of one are looked at. Larger ones are made of the changes that matter most, and hold each change without which all the others together do not do.
func (f *finder) options(use func(same []option) bool) {
	none := f.looked([][]int{{}})
	if len(f.forced) > 0 && use(f.promising(none)) {
		return
	}
	singles := make([][]int, len(f.possible))
	for i := range singles {
		singles[i] = []int{i}
	}
	alone := f.looked(singles)
	if use(f.promising(alone)) {
		return
	}
	matter, needed, enough := f.matter(none[0].ratio, alone)
	if !enough {
		f.greedy(matter)
		return
	}
	for size := 2; len(f.forced)+size <= most; size++ {
		if use(f.promising(f.looked(combinations(matter, needed, size)))) {
			return
		}
	}
}

// promising are the options that may do: those that leave the feed as it is first, and of them the driest.
func (f *finder) promising(all []option) []option {
	enough := slices.DeleteFunc(slices.Clone(all), func(o option) bool { return !(o.ratio <= near) })
	feeds := func(o option) int {
		return len(o.of) - len(slices.DeleteFunc(slices.Clone(o.of), func(i int) bool { return f.possible[i].Kind <= Faster }))
	}
	slices.SortStableFunc(enough, func(x, y option) int { return cmp.Or(cmp.Compare(feeds(x), feeds(y)), cmp.Compare(x.ratio, y.ratio)) })
	return enough
}

// near is how far above its limit a strand may be at the design point, by its logarithm, to be looked at closer: the case is not exact.
const near = 0.03

// matter are the changes that do most, alone or by what is lost without them among all; those without which all the others do not do; and
// whether all together do. Of a slower and a faster feed all have the better one.
func (f *finder) matter(none float64, alone []option) (matter, needed []int, enough bool) {
	var all []int
	for i, c := range f.possible {
		other := slices.IndexFunc(f.possible, func(o Change) bool { return o.Kind == Slower+Faster-c.Kind })
		if (c.Kind == Slower || c.Kind == Faster) && other >= 0 && alone[other].ratio < alone[i].ratio {
			continue
		}
		all = append(all, i)
	}
	without := make([][]int, len(all), len(all)+1)
	for k := range all {
		without[k] = slices.Delete(slices.Clone(all), k, k+1)
	}
	ratios := f.looked(append(without, all))
	full := ratios[len(all)].ratio
	type weighed struct {
		change int
		worth  float64
	}
	var worth []weighed
	for i := range f.possible {
		w := none - alone[i].ratio
		if k := slices.Index(all, i); k >= 0 {
			w = max(w, ratios[k].ratio-full)
			if full <= near && ratios[k].ratio > near {
				needed = append(needed, i)
			}
		}
		const counts = 2e-3
		if w > counts {
			worth = append(worth, weighed{i, w})
		}
	}
	slices.SortStableFunc(worth, func(x, y weighed) int { return cmp.Compare(y.worth, x.worth) })
	const kept = 9
	for _, w := range worth[:min(kept, len(worth))] {
		matter = append(matter, w.change)
	}
	slices.Sort(matter)
	return matter, needed, full <= near
}

// greedy looks for the nearest set, one change after another; the first two together, as one may do nothing without the other, unless marches are long.
func (f *finder) greedy(matter []int) {
	var of []int
	if pairs := combinations(matter, nil, 2); len(pairs) > 0 && len(f.forced) <= most-2 && !f.covered() {
		best := slices.MinFunc(f.looked(pairs), func(x, y option) int { return cmp.Compare(x.ratio, y.ratio) })
		of = best.of
	}
	for len(f.forced)+len(of) < most {
		var sets [][]int
		for _, i := range matter {
			if !slices.Contains(of, i) {
				sets = append(sets, append(slices.Clone(of), i))
			}
		}
		if len(sets) == 0 {
			return
		}
		best := slices.MinFunc(f.looked(sets), func(x, y option) int { return cmp.Compare(x.ratio, y.ratio) })
		of = best.of
	}
}

// combinations are the sets of a size of some indices, which are in order, that hold all the needed ones.
func combinations(of, needed []int, size int) [][]int {
	var out [][]int
	var grow func(set []int, from int)
	grow = func(set []int, from int) {
		if len(set) == size {
			if !slices.ContainsFunc(needed, func(i int) bool { return !slices.Contains(set, i) }) {
				out = append(out, slices.Clone(set))
			}
			return
		}
		for k := from; k < len(of); k++ {
			grow(append(set, of[k]), k+1)
		}
	}
	grow(nil, 0)
	return out
}
