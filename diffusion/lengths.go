package diffusion

import (
	"fmt"
	"slices"

	"strandry/diffusion/film"
	"strandry/diffusion/radial"
)

// RunLengths runs the model once for each of the rising lengths [m] of the zone with the
// given index, or durations [s] if it has one, and calls use with each result in turn, which is overwritten after it
// returns. The results are those of separate runs, to the bit; but where lengths
// share a grid and a film, and the air allows, the strand goes through the zone only once,
// and each length branches off where its own run would end the zone.
func (w *March) RunLengths(m *Model, zone int, lengths []float64, s Settings, use func(i int, r *Result) error) error {
	return w.runLengths(m, zone, lengths, nil, s, use)
}

// runLengths starts the balance of air and strand for each length from that of a similar model; nil for none.
func (w *March) runLengths(m *Model, zone int, lengths []float64, similarBalances [][]airBalance, s Settings, use func(i int, r *Result) error) error {
	s, err := w.checked(m, s)
	if err == nil {
		err = m.has(zone)
	}
	if err != nil {
		return err
	}
	varied := *m
	varied.Path = append([]Zone(nil), m.Path...)
	z := &varied.Path[zone]
	var result Result
	for first := 0; first < len(lengths); {
		z.Extend(lengths[first])
		g, err := w.grid(&varied, s)
		if err != nil {
			return err
		}
		last := first + 1
		for ; last < len(lengths); last++ {
			z.Extend(lengths[last])
			if next, err := w.grid(&varied, s); err != nil || next != g {
				break
			}
			if similarBalances != nil && !slices.Equal(similarBalances[last][:zone], similarBalances[first][:zone]) {
				break // they would come to the zone by other marches
			}
		}
		b := branching{march: w, model: &varied, zone: zone, similarBalances: similarBalances, settings: s, use: use, result: &result}
		if err := b.run(g, lengths[first:last], first); err != nil {
			return err
		}
		first = last
	}
	return nil
}

// branching is one pass through the zone for several lengths.
type branching struct {
	march           *March
	model           *Model
	zone            int
	similarBalances [][]airBalance
	settings        Settings
	use             func(i int, r *Result) error
	result          *Result
}

// similarTo are the balances of a similar model from which those of a length are sought; nil for none.
func (b *branching) similarTo(i int) []airBalance {
	if b.similarBalances == nil {
		return nil
	}
	return b.similarBalances[i]
}

func (b *branching) run(g *radial.Grid, lengths []float64, offset int) error {
	l, m, r := &b.march.main, b.model, b.result
	z := &m.Path[b.zone]
	if supply := (airSupply{limited: z.Air.Limited()}); !supply.marched(z.Air.Direction) {
		return b.separately(lengths, offset)
	}
	z.Extend(lengths[len(lengths)-1])
	l.similarBalances = b.similarTo(offset)
	if err := l.begin(m, b.settings, g, r); err != nil {
		return err
	}
	if err := l.along(0, b.zone, b.settings, r); err != nil {
		return err
	}
	films, shared, err := b.films(lengths, l.around.thermal.mean())
	if err != nil {
		return fmt.Errorf("zone %q: %w", z.Name, err)
	}
	if !shared {
		return b.separately(lengths, offset)
	}
	if _, err := l.enter(z, b.settings); err != nil {
		return fmt.Errorf("zone %q: %w", z.Name, err)
	}
	before, start := l.cylinder.Lost, r.Start
	times := make([]float64, len(lengths))
	for i, length := range lengths {
		z.Extend(length)
		times[i] = z.Residence(m.Speed)
	}
	side := &b.march.side
	at := func(i int, from *strand) error {
		z.Extend(lengths[i])
		if from == side {
			side.set(m, b.settings, g)
			side.hottest = l.hottest
		}
		r.Start, r.Zones = start, append(r.Zones[:b.zone], ZoneResult{})
		r.Radius, r.Profile = r.Radius[:0], r.Profile[:0]
		r.balances = append(r.balances[:b.zone], airBalance{})
		from.similarBalances = b.similarTo(offset + i)
		from.leave(&l.around, z, films[i], before, &r.Zones[b.zone])
		if err := from.along(b.zone+1, len(m.Path), b.settings, r); err != nil {
			return err
		}
		if err := r.finish(from); err != nil {
			return err
		}
		return b.use(offset+i, r)
	}
	err = l.advanceThrough(times, l.numerics(z, b.settings), side, at)
	if err != nil {
		return fmt.Errorf("zone %q: %w", z.Name, err)
	}
	return nil
}

// films are the coefficients of the zone at each length, for a strand that enters with a temperature [K], and
// whether they are the same: along a flow, and on a strand that hangs, they are not.
func (b *branching) films(lengths []float64, entered float64) (all []film.Coefficients, shared bool, err error) {
	shared = true
	for _, length := range lengths {
		z := b.model.Path[b.zone]
		z.Extend(length)
		c, err := filmAt(&z, b.model, entered)
		if err != nil {
			return nil, false, err
		}
		all = append(all, c)
		shared = shared && c.Heat == all[0].Heat && c.Mass == all[0].Mass
	}
	return all, shared, nil
}

func (b *branching) separately(lengths []float64, offset int) error {
	for i, length := range lengths {
		b.model.Path[b.zone].Extend(length)
		if err := b.march.run(b.model, b.settings, b.similarTo(offset+i), b.result); err != nil {
			return err
		}
		if err := b.use(offset+i, b.result); err != nil {
			return err
		}
	}
	return nil
}
