package sweep

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/scenarios"
)

// oddsAtKnots gives the rows at the knots of a quick sweep what figures show of the doubt. Of those that differ in numbers alone, that nearest to its limit is
// asked for its odds, the others for odds like them: see [diffusion.March.OddsLike].
func (s *Sweep) oddsAtKnots(ctx context.Context, g *Grid) error {
	b := knotOdds{sweep: s, grid: g, march: diffusion.NewMarch()}
	for _, rows := range b.groups() {
		if err := b.find(ctx, rows); err != nil {
			return err
		}
	}
	return nil
}

// knotOdds finds the odds at knots.
type knotOdds struct {
	sweep *Sweep
	grid  *Grid
	march *diffusion.March
}

// groups lists the rows at knots that have an answer, those together that share all names.
func (b *knotOdds) groups() [][]int {
	at := make(map[string]int)
	var all [][]int
	each := knots(b.grid.Axes, b.sweep.Knots)
	for row := range b.grid.Rows {
		names, knot := "", true
		for i, place := range b.grid.At(row) {
			if len(b.grid.Axes[i].Values) == 0 {
				names += fmt.Sprintf(" %d", place)
			} else if !slices.Contains(each[i], place) {
				knot = false
			}
		}
		if !knot || b.grid.Rows[row].Failed != "" {
			continue
		}
		k, known := at[names]
		if !known {
			k, at[names] = len(all), len(all)
			all = append(all, nil)
		}
		all[k] = append(all[k], row)
	}
	return all
}

func (b *knotOdds) find(ctx context.Context, rows []int) error {
	rows = slices.DeleteFunc(slices.Clone(rows), func(row int) bool { return b.grid.Rows[row].Ratio.High > 0 }) // known before
	if len(rows) == 0 {
		return nil
	}
	nearest := slices.MinFunc(rows, func(a, c int) int { return cmp.Compare(b.off(a), b.off(c)) })
	anchor, err := b.odds(b.march, nil, nearest)
	if err == nil {
		b.take(nearest, &anchor)
	}
	marches := diffusion.Marches(len(rows))
	marches[0] = b.march
	all, err := parallel.Map(ctx, marches, len(rows), func(w *diffusion.March, i int) (*diffusion.Odds, error) {
		if rows[i] == nearest {
			return nil, nil
		}
		o, err := b.odds(w, &anchor, rows[i])
		if err != nil {
			return nil, nil // the row has said so, if it has no answer
		}
		return &o, nil
	})
	if err != nil {
		return err
	}
	for i, o := range all {
		if o != nil {
			b.take(rows[i], o)
		}
	}
	return nil
}

// odds of a row, by those of another; nil for none.
func (b *knotOdds) odds(w *diffusion.March, like *diffusion.Odds, row int) (diffusion.Odds, error) {
	m, err := b.model(row)
	if err != nil {
		return diffusion.Odds{}, err
	}
	return w.OddsLike(like, m, b.grid.Rows[row].Settings)
}

func (b *knotOdds) take(row int, o *diffusion.Odds) {
	r := &b.grid.Rows[row]
	r.Low, r.High, r.Ratio = o.Low, o.High, o.Ratio
}

// off is how far a row is from its limit, as a logarithm; more for one that is below it, where a wet skin or the air may decide, and a surrogate serves less.
func (b *knotOdds) off(row int) float64 {
	const below = 4
	r := &b.grid.Rows[row]
	log := math.Log(math.Max(r.Mean, 1e-9) / r.Limit)
	return math.Max(log, -below*log)
}

func (b *knotOdds) model(row int) (*diffusion.Design, error) {
	s, err := b.sweep.Scenario.With(b.grid.settings(row)...)
	if err != nil {
		return nil, err
	}
	return &s.Design, nil
}

// knots are so many places on the longest axis of numbers and about half as many on another: its ends and, spread evenly over its values by rising value,
// those between, one of them next to the scenario's own. All of them where there are no more, and on the shortest of three axes, of which a figure shows a single place.
func knots(axes []scenarios.Axis, count int) [][]int {
	numbers, shortest, longest := 0, -1, 0
	for i, a := range axes {
		if len(a.Values) == 0 {
			continue
		}
		if numbers++; shortest < 0 || len(a.Values) < len(axes[shortest].Values) {
			shortest = i
		}
		if len(a.Values) > len(axes[longest].Values) {
			longest = i
		}
	}
	out := make([][]int, len(axes))
	for i, a := range axes {
		order := make([]int, len(a.Values))
		for k := range order {
			order[k] = k
		}
		slices.SortStableFunc(order, func(j, k int) int { return cmp.Compare(a.Values[j], a.Values[k]) })
		count := count
		if i != longest {
			count = (count + 1) / 2
		}
		if last := len(order) - 1; last >= count && count > 1 && !(numbers > 2 && i == shortest) {
			for k := range count {
				out[i] = append(out[i], order[k*last/(count-1)])
			}
			own(out[i], a)
			continue
		}
		out[i] = order
	}
	return out
}

// own puts the place nearest to the scenario's own value in place of the knot between the ends that is nearest to it.
func own(chosen []int, a scenarios.Axis) {
	if !a.Key.Known || len(chosen) < 3 {
		return
	}
	off := func(place int) float64 { return math.Abs(a.Values[place] - a.Key.Value) }
	nearest := 0
	for place := range a.Values {
		if off(place) < off(nearest) {
			nearest = place
		}
	}
	inner, best := chosen[1:len(chosen)-1], 0
	for k := range inner {
		if math.Abs(a.Values[inner[k]]-a.Values[nearest]) < math.Abs(a.Values[inner[best]]-a.Values[nearest]) {
			best = k
		}
	}
	if !slices.Contains(chosen, nearest) {
		inner[best] = nearest
	}
}
