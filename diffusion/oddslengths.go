package diffusion

import (
	"math"
	"slices"
)

// OddsLengths finds the odds of the design for each of the rising lengths [m] of the zone with the given index, or durations [s] if it has one, and calls use with each in
// turn. They are those of [March.Odds], to the bit; but most of the marches are made once for all lengths, see [March.RunLengths].
func (w *March) OddsLengths(d *Design, zone int, lengths []float64, s Settings, use func(i int, o Odds, err error) error) error {
	if err := d.has(zone); err != nil {
		return err
	}
	varied := *d
	varied.Path = slices.Clone(d.Path)
	if len(lengths) > 0 {
		varied.Path[zone].Extend(lengths[0])
	}
	e, err := w.ensemble(&varied, drawSettings(s))
	if err != nil {
		return err
	}
	f := family{ensemble: e, zone: zone, lengths: lengths}
	fresh := *e
	for _, length := range lengths {
		varied.Path[zone].Extend(length)
		begun := fresh
		begun.begin()
		f.atLengths = append(f.atLengths, begun)
		f.uneven = f.uneven || begun.settings != f.atLengths[0].settings
	}
	for i, length := range lengths {
		varied.Path[zone].Extend(length)
		*e = f.atLengths[i]
		fit, err := e.fit(func(points [][]float64) []float64 { return f.at(points, i) })
		var o Odds
		if err == nil {
			o = e.odds(&varied, fit)
		}
		if err := use(i, o, err); err != nil {
			return err
		}
	}
	return nil
}

// family is an ensemble over several lengths of a zone.
type family struct {
	*ensemble
	zone      int
	lengths   []float64
	atLengths []ensemble  // begun at each
	uneven    bool        // some lengths have no answer in the steps of the others
	table     [][]float64 // values at [surrogate.Points], for each length
}

// at gives the values at points for the length with index i. Those at the centre and on the axes are marched for all lengths at once.
func (f *family) at(points [][]float64, i int) []float64 {
	n := len(f.unknowns)
	if len(points) != 1+2*n || len(f.lengths) == 1 || f.uneven || len(f.design.Given) > 0 {
		return f.each(points) // what is given may change the length itself
	}
	if f.table == nil {
		f.table = make([][]float64, len(f.lengths))
		for _, p := range points {
			for k, value := range f.along(p) {
				f.table[k] = append(f.table[k], value)
			}
		}
	}
	return slices.Clone(f.table[i])
}

// along is [ensemble.march] for all lengths.
func (f *family) along(deviates []float64) []float64 {
	m, open, err := f.design.drawn(f.unknowns, deviates)
	if err != nil {
		f.fails(err)
		return slices.Repeat([]float64{math.NaN()}, len(f.lengths))
	}
	logs := f.logarithms(&m)
	openBores, hasBores := m.withOpenBores()
	if !hasBores {
		return logs
	}
	for i, most := range f.logarithms(&openBores) {
		logs[i] = betweenMouths(logs[i], most, open)
	}
	return logs
}

func (f *family) logarithms(m *Model) []float64 {
	logs := make([]float64, 0, len(f.lengths))
	err := f.marches.runLengths(m, f.zone, f.lengths, f.balancesAtLengths(m), f.settings.Bounded(), func(_ int, r *Result) error {
		logs = append(logs, logarithm(r.Nozzle.Mean, f.design.Limit))
		return nil
	})
	if err == nil {
		return logs
	}
	// One of the lengths has no answer; the others may.
	logs = logs[:0]
	for i, length := range f.lengths {
		m.Path[f.zone].Extend(length)
		own := f.atLengths[i]
		log, err := own.logarithm(m)
		if err != nil {
			f.fails(err)
			log = math.NaN()
		}
		logs = append(logs, log)
	}
	return logs
}

// balancesAtLengths are [ensemble.balances] of a drawn model at each length.
func (f *family) balancesAtLengths(m *Model) [][]airBalance {
	if f.atLengths[0].medianBalances == nil {
		return nil
	}
	var all [][]airBalance
	for i, length := range f.lengths {
		m.Path[f.zone].Extend(length)
		all = append(all, f.atLengths[i].balances(m))
	}
	return all
}
