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
	f := family{ensemble: e, zone: zone, lengths: lengths, tables: map[int][][]float64{}}
	for _, length := range lengths {
		varied.Path[zone].Extend(length)
		if start := e.agreements(); start != nil {
			f.near = append(f.near, start)
		}
	}
	for i, length := range lengths {
		varied.Path[zone].Extend(length)
		if e.failed = nil; f.near != nil {
			e.near = f.near[i]
		}
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
	zone    int
	lengths []float64
	near    [][]agreement
	tables  map[int][][]float64 // values at points, of which there are so many, for each length
}

// at gives the values at points for the length with index i.
func (f *family) at(points [][]float64, i int) []float64 {
	if len(f.lengths) == 1 || len(f.design.Given) > 0 {
		return f.each(points) // what is given may change the length itself
	}
	table, known := f.tables[len(points)]
	if !known {
		table = make([][]float64, len(f.lengths))
		for _, p := range points {
			for k, value := range f.along(p) {
				table[k] = append(table[k], value)
			}
		}
		f.tables[len(points)] = table
	}
	return slices.Clone(table[i])
}

// along is [ensemble.march] for all lengths.
func (f *family) along(deviates []float64) []float64 {
	m, open, err := f.design.drawn(f.unknowns, deviates)
	if err != nil {
		f.fails(err)
		return slices.Repeat([]float64{math.NaN()}, len(f.lengths))
	}
	logs := f.logarithms(&m)
	endless, bored := m.unboundedBores()
	if !bored {
		return logs
	}
	for i, most := range f.logarithms(&endless) {
		logs[i] = (1-open)*logs[i] + open*most
	}
	return logs
}

func (f *family) logarithms(m *Model) []float64 {
	logs := make([]float64, 0, len(f.lengths))
	err := f.marches.runLengths(m, f.zone, f.lengths, f.near, f.settings, func(_ int, r *Result) error {
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
		if f.near != nil {
			f.ensemble.near = f.near[i]
		}
		log, err := f.logarithm(m)
		if err != nil {
			f.fails(err)
			log = math.NaN()
		}
		logs = append(logs, log)
	}
	return logs
}
