package needed

import (
	"cmp"
	"context"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/root"
	"strandry/scenarios/studies/size"
)

// doubt finds NineInTen, OneInTen and Residual at a few temperatures, and fills in those between. longest is what can be built [m].
func (t *Table) doubt(ctx context.Context, r *Request, designs []*diffusion.Design, own []place, longest float64) error {
	n := len(own)
	t.NineInTen, t.OneInTen, t.Residual = make([]float64, n), make([]float64, n), make([]Residual, n)
	d := doubting{march: diffusion.NewMarch(), request: r}
	var met, unmet []int
	for i, p := range own {
		switch {
		case p.length > far*longest:
		case p.length > size.Shortest:
			met = append(met, i)
		case p.nearest > 0:
			unmet = append(unmet, i)
			t.Residual[i].Mean = p.least
		}
	}
	for _, i := range inwards(few(met)) {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		t.OneInTen[i], t.NineInTen[i] = d.lengths(designs[i], own[i].length)
	}
	for _, i := range inwards(few(unmet)) {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		t.Residual[i].Low, t.Residual[i].High = d.residual(designs[i], own[i].nearest)
	}
	between(few(met), func(i int) float64 { return own[i].length }, func(i int) *float64 { return &t.NineInTen[i] })
	between(few(met), func(i int) float64 { return own[i].length }, func(i int) *float64 { return &t.OneInTen[i] })
	between(few(unmet), func(i int) float64 { return own[i].least }, func(i int) *float64 { return &t.Residual[i].Low })
	between(few(unmet), func(i int) float64 { return own[i].least }, func(i int) *float64 { return &t.Residual[i].High })
	return nil
}

// far beyond what can be built, nobody asks how sure a length is, and the marches are long.
const far = 15

// few are some of the indices, the first and the last among them.
func few(all []int) []int {
	const most = 5
	if len(all) <= most {
		return all
	}
	var out []int
	for k := range most {
		out = append(out, all[k*(len(all)-1)/(most-1)])
	}
	return out
}

// inwards are the same with the middle one first, which the others are set beside.
func inwards(all []int) []int {
	middle := len(all) / 2
	return slices.Concat(all[middle:], all[:middle])
}

// between fills in what lies between neighbouring knots that are both known: its ratio to a middle goes from one to the other evenly.
func between(knots []int, middle func(i int) float64, value func(i int) *float64) {
	for k := 1; k < len(knots); k++ {
		a, b := knots[k-1], knots[k]
		if !(*value(a) > 0 && *value(b) > 0) {
			continue
		}
		from, to := math.Log(*value(a)/middle(a)), math.Log(*value(b)/middle(b))
		for i := a + 1; i < b; i++ {
			if middle(i) > 0 {
				*value(i) = middle(i) * math.Exp(from+(to-from)*float64(i-a)/float64(b-a))
			}
		}
	}
}

// doubting asks for odds: the first question in full, the others by odds like its answer.
type doubting struct {
	march   *diffusion.March
	request *Request
	base    *diffusion.Odds
}

// residual is the 10 and 90 % points of the content at the nozzle; zero where there is no answer.
func (d *doubting) residual(m *diffusion.Design, length float64) (low, high float64) {
	o, err := d.march.OddsLike(d.base, with(m, d.request.Zone, length), d.request.Settings)
	if err != nil {
		return 0, 0
	}
	d.base = cmp.Or(d.base, &o)
	return o.Low, o.High
}

// lengths are those from which on the limit is met one time and nine times in ten, about one that meets it at the medians [m]; 0 where a search
// does not find it.
func (d *doubting) lengths(m *diffusion.Design, middle float64) (one, nine float64) {
	over, err := d.march.LengthOdds(m, d.request.Zone, d.base, d.request.Settings)
	if err != nil {
		return 0, 0
	}
	step := size.FirstStep(m)
	one, nine = edge(over, middle, -step, diffusion.OneInTen), edge(over, middle, step, diffusion.NineInTen)
	d.base = cmp.Or(d.base, over.Base())
	return one, nine
}

// edge walks from a length [m] by steps of its logarithm until the probability crosses a share, and finds where.
func edge(over *diffusion.LengthOdds, from, step, share float64) float64 {
	const farthest, reach, near = 8, 0.4, 0.02
	at := func(u float64) (float64, error) {
		const least = 1e-3
		p, err := over.Probability(math.Exp(u), reach)
		return diffusion.Deviate(share, least) - diffusion.Deviate(p, least), err
	}
	here := root.Place{X: math.Log(from)}
	var err error
	if here.Y, err = at(here.X); err != nil {
		return 0
	}
	for range farthest {
		next := root.Place{X: math.Min(math.Max(here.X+step, math.Log(size.Shortest)), math.Log(size.Longest))}
		if next.Y, err = at(next.X); err != nil || next.X == here.X {
			return 0
		}
		if here.Y <= 0 && next.Y <= 0 && math.Exp(next.X) <= size.Shortest*(1+1e-9) {
			return size.Shortest // none is needed
		}
		if b, crossed := (root.Walk{here, next}).Crossed(); crossed {
			u, err := root.Find(at, b, root.Tolerance{Value: near, Width: near * math.Abs(step)})
			if err != nil {
				return 0
			}
			return math.Exp(u)
		}
		here = next
	}
	return 0
}
