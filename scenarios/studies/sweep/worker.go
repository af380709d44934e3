package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/scenarios"
)

// worker does tasks, one after another.
type worker struct {
	sweep *Sweep
	plan  plan
	out   chan<- finished
	march *diffusion.March

	at       []int // combination that the scenario below is for
	scenario *scenarios.Scenario
	err      error // why it is none
}

// errLeft ends a march whose rows nobody waits for any more.
var errLeft = errors.New("interrupted")

// do finds the rows of a task that are not known yet and hands them over. The error is that nobody waits any more.
func (w *worker) do(ctx context.Context, task int) error {
	at, lengths := w.plan.task(task)
	indices := w.missing(at, lengths)
	if len(indices) == 0 {
		return nil
	}
	w.prepare(at)
	rows := make([]Row, len(indices))
	if w.err != nil {
		for i := range rows {
			rows[i].Failed = w.err.Error()
		}
	} else if err := w.answer(ctx, indices, rows); err != nil {
		return err
	}
	for i, row := range rows {
		select {
		case w.out <- finished{indices[i], row}:
		case <-ctx.Done():
			// The last rows may still find someone who listens.
			select {
			case w.out <- finished{indices[i], row}:
			default:
				return errLeft
			}
		}
	}
	return nil
}

// missing lists the rows of a task, by rising length, but those that are known.
func (w *worker) missing(at, lengths []int) []int {
	var rows []int
	add := func() {
		row := index(w.plan.axes, at)
		if _, known := w.sweep.Known[row]; !known && (w.sweep.only == nil || w.sweep.only[row]) {
			rows = append(rows, row)
		}
	}
	if w.plan.axis < 0 {
		add()
		return rows
	}
	for _, place := range lengths {
		at[w.plan.axis] = place
		add()
	}
	at[w.plan.axis] = 0
	return rows
}

// prepare makes the scenario of a combination, unless it is that of the task before.
func (w *worker) prepare(at []int) {
	if slices.Equal(at, w.at) {
		return
	}
	w.at = at
	var set []scenarios.Setting
	for i, axis := range w.plan.axes {
		if i != w.plan.axis {
			set = append(set, axis.Setting(at[i]))
		}
	}
	w.scenario, w.err = w.sweep.Scenario.With(set...)
	if w.err == nil {
		w.err = w.scenario.Model.Check()
	}
}

// answer fills in one row for each index. Those that the coarse steps of a sweep leave
// without an answer are tried again with the usual ones. The error is that nobody
// waits any more; a row without an answer says so itself.
func (w *worker) answer(ctx context.Context, indices []int, rows []Row) error {
	if w.sweep.only != nil {
		return w.brief(ctx, indices, rows)
	}
	if err := w.rows(ctx, indices, rows, w.sweep.settings(w.scenario)); err != nil || w.scenario.Numerics {
		return err
	}
	for i := range rows {
		if rows[i].Failed == "" {
			continue
		}
		rows[i] = Row{}
		if err := w.rows(ctx, indices[i:i+1], rows[i:i+1], diffusion.DefaultSettings()); err != nil {
			return err
		}
	}
	return nil
}

// brief fills in rows for a sketch, none of which is worth waiting for.
func (w *worker) brief(ctx context.Context, indices []int, rows []Row) error {
	err := w.rows(ctx, indices, rows, w.sweep.settings(w.scenario).Bounded())
	for i := range rows {
		if failed := rows[i].Failed; failed != "" && failed != diffusion.ErrCondenses.Error() {
			rows[i].Failed = "no answer in the steps that a sketch takes: " + failed
		}
	}
	return err
}

// rows marches the rows that are given empty.
func (w *worker) rows(ctx context.Context, indices []int, rows []Row, s diffusion.Settings) error {
	m := w.scenario.Design
	m.Path = slices.Clone(m.Path)
	if err := w.pass(ctx, &m, indices, rows, s); err != nil {
		return err
	}
	if !w.sweep.Quick {
		if err := w.odds(ctx, &m, indices, rows, s); err != nil {
			return err
		}
	}
	for i := range rows {
		row := &rows[i]
		if row.Failed == "" && !row.finite() {
			row.Failed = "the march came out as no number; please report the scenario"
		}
		if row.Failed != "" {
			*row = Row{Failed: row.Failed}
		}
		row.Limit, row.Settings = m.Limit, s
	}
	return nil
}

// pass marches every row at the medians of what is in doubt.
func (w *worker) pass(ctx context.Context, m *diffusion.Design, indices []int, rows []Row, s diffusion.Settings) error {
	use := func(i int, r *diffusion.Result) error {
		rows[i].take(m, r)
		if r.Condenses(&m.Model) {
			rows[i].Failed = diffusion.ErrCondenses.Error()
		}
		if ctx.Err() != nil {
			return errLeft
		}
		return nil
	}
	lengths, rising := w.lengths(indices)
	near := w.sweep.drawn && w.plan.axis >= 0 && m.Path[w.plan.zone].Air.Balanced()
	if rising && !near {
		err := w.march.RunLengths(&m.Model, w.plan.zone, lengths, s, use)
		if err == nil || errors.Is(err, errLeft) {
			return err
		}
	}
	// One by one: there is one row only, one of them has no answer, or each is sought from the one before.
	var r diffusion.Result
	march := w.march.Run
	if near {
		march = func(m *diffusion.Model, s diffusion.Settings, out *diffusion.Result) error {
			return w.march.RunFrom(&r, m, s, out)
		}
	}
	for i := range indices {
		if w.plan.axis >= 0 {
			m.Path[w.plan.zone].Length = lengths[i]
		}
		if err := march(&m.Model, s, &r); err != nil {
			rows[i].Failed = fmt.Sprint(err)
			continue
		}
		if err := use(i, &r); err != nil {
			return err
		}
	}
	return nil
}

// odds finds those of the rows that have an answer, and their verdicts.
func (w *worker) odds(ctx context.Context, m *diffusion.Design, indices []int, rows []Row, s diffusion.Settings) error {
	var answered, at []int
	for i := range rows {
		if rows[i].Failed == "" {
			answered, at = append(answered, i), append(at, indices[i])
		}
	}
	use := func(k int, o diffusion.Odds, err error) error {
		if row := &rows[answered[k]]; err != nil {
			row.Failed = err.Error()
		} else {
			row.odds(&o)
		}
		if ctx.Err() != nil {
			return errLeft
		}
		return nil
	}
	if w.plan.axis < 0 {
		for k := range answered {
			o, err := w.march.Odds(m, s)
			if err := use(k, o, err); err != nil {
				return err
			}
		}
		return nil
	}
	lengths, _ := w.lengths(at)
	return w.march.OddsLengths(m, w.plan.zone, lengths, s, use)
}

// lengths gives the lengths [m] of the rows, and whether they rise.
func (w *worker) lengths(indices []int) (lengths []float64, rising bool) {
	if w.plan.axis < 0 {
		return nil, false
	}
	rising = len(indices) > 1
	for i, row := range indices {
		lengths = append(lengths, w.length(row))
		rising = rising && (i == 0 || lengths[i] > lengths[i-1])
	}
	return lengths, rising
}

// length is that of a row [m], where an axis is one.
func (w *worker) length(row int) float64 {
	return w.plan.axes[w.plan.axis].Values[places(w.plan.axes, row)[w.plan.axis]]
}

// odds notes the odds and the verdict.
func (row *Row) odds(o *diffusion.Odds) {
	row.Low, row.High, row.Probability, row.Density, row.Ratio = o.Low, o.High, o.Probability, o.Density, o.Ratio
	row.Verdict = o.Verdict(0, row.Survives())
}

// take notes what the march at the medians has found.
func (row *Row) take(m *diffusion.Design, r *diffusion.Result) {
	row.Mean, row.Centre, row.Skin, row.Removed = r.Nozzle.Mean, r.Nozzle.Centre, r.Nozzle.Skin, r.Removed
	row.Low, row.High, row.Excess = row.Mean, row.Mean, r.Endures(&m.Model).Excess()
}

func (row *Row) finite() bool {
	sum := row.Mean + row.Centre + row.Skin + row.Low + row.High + row.Removed + row.Excess.Yield + row.Excess.Bear + row.Probability + row.Density + row.Ratio.Low + row.Ratio.High
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
