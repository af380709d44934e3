package figure

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"strandry/diffusion"
	"strandry/plots/words"
	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

// mostSheets bounds the figures of one sweep.
const mostSheets = 12

// OfSweep makes the figures of a sweep: a line over one axis of numbers, a map over
// two. Axes of names, and of three axes of numbers the one with the fewest values,
// give a figure for each of their places. undrawn tells in words what was left
// out, and why. The scenario is that which was swept.
func OfSweep(g *sweep.Grid, s *scenarios.Scenario, f Frame) (sheets []Sheet, undrawn []string) {
	drawn, fixed := roles(g.Axes)
	switch total := combinations(g.Axes, fixed); {
	case len(drawn) == 0:
		return nil, []string{"no figure: no axis has two numbers to draw along"}
	case total > mostSheets:
		return nil, []string{fmt.Sprintf("no figures: there would be %d of them; up to %d are drawn", total, mostSheets)}
	}
	if k := g.Sketched; k != nil {
		f.Notes = append(slices.Clone(f.Notes), fmt.Sprintf("sketched by %d marches, off by about %s %%", k.Marches, words.Digits(100*k.Slack(), 2)))
	}
	for i, name := range SweepNames(g.Axes) {
		c := cut{grid: g, scenario: s, drawn: drawn, fixed: fixed, at: fixedAt(g.Axes, fixed, i)}
		for _, k := range drawn {
			c.order = append(c.order, places(g.Axes[k]))
		}
		sheet, why := c.sheet(f)
		sheet.Name = name
		if why != "" {
			undrawn = append(undrawn, sheet.Name+": "+why)
			continue
		}
		sheets = append(sheets, sheet)
	}
	return sheets, undrawn
}

// SweepNames lists the names of the sheets that [OfSweep] draws of a grid, those too that may be left out for
// what its rows are. They are told apart where letters have no case too.
func SweepNames(axes []scenarios.Axis) []string {
	drawn, fixed := roles(axes)
	total := combinations(axes, fixed)
	if len(drawn) == 0 || total > mostSheets {
		return nil
	}
	var names []string
	for i := range total {
		name := [...]string{1: "line", 2: "map"}[len(drawn)]
		at := fixedAt(axes, fixed, i)
		for _, k := range fixed {
			name += "-" + fileName(axes[k].Setting(at[k]).Value)
		}
		for slices.ContainsFunc(names, func(other string) bool { return strings.EqualFold(other, name) }) {
			name += "-" + strconv.Itoa(len(names)+1)
		}
		names = append(names, name)
	}
	return names
}

// combinations counts the places on the fixed axes together.
func combinations(axes []scenarios.Axis, fixed []int) int {
	total := 1
	for _, k := range fixed {
		total *= axes[k].Len()
	}
	return total
}

// fixedAt is the i-th combination of places on the fixed axes, the last of them the fastest.
func fixedAt(axes []scenarios.Axis, fixed []int, i int) []int {
	at := make([]int, len(axes))
	for _, k := range slices.Backward(fixed) {
		at[k] = i % axes[k].Len()
		i /= axes[k].Len()
	}
	return at
}

// roles tells which axes are drawn along, the one of the abscissa first, and which
// stay at one place in each figure.
func roles(axes []scenarios.Axis) (drawn, fixed []int) {
	for k, a := range axes {
		if len(places(a)) > 1 {
			drawn = append(drawn, k)
		} else {
			fixed = append(fixed, k)
		}
	}
	if len(drawn) > 2 {
		fewest := slices.MinFunc(drawn, func(a, b int) int { return cmp.Compare(axes[a].Len(), axes[b].Len()) })
		drawn = slices.DeleteFunc(drawn, func(k int) bool { return k == fewest })
		fixed = append(fixed, fewest)
		slices.Sort(fixed)
	}
	isLength := func(k int) bool { return strings.HasSuffix(axes[k].Key.Name, ".length") }
	if len(drawn) == 2 && isLength(drawn[1]) && !isLength(drawn[0]) {
		slices.Reverse(drawn)
	}
	return drawn, fixed
}

// places lists the places on an axis of numbers by rising value, each value once.
func places(a scenarios.Axis) []int {
	var all []int
	for i := range a.Values {
		all = append(all, i)
	}
	slices.SortStableFunc(all, func(i, j int) int { return cmp.Compare(a.Values[i], a.Values[j]) })
	return slices.CompactFunc(all, func(i, j int) bool { return a.Values[i] == a.Values[j] })
}

// cut is the part of a grid that one figure shows.
type cut struct {
	grid         *sweep.Grid
	scenario     *scenarios.Scenario
	drawn, fixed []int
	at           []int   // of the fixed axes
	order        [][]int // places on the drawn axes, by rising value
	limit        float64
}

func (c *cut) sheet(f Frame) (Sheet, string) {
	var sheet Sheet
	for _, k := range c.fixed {
		f.Setup = f.Setup.without(c.grid.Axes[k].Key)
		f.Notes = append(slices.Clone(f.Notes), keyName(c.grid.Axes[k].Key)+" "+c.grid.Axes[k].Setting(c.at[k]).Value)
	}
	for _, k := range c.drawn {
		f.Setup = f.Setup.without(c.grid.Axes[k].Key)
	}
	if why := c.obstacle(); why != "" {
		return sheet, why
	}
	x, err := c.axis(0)
	if err != nil {
		return sheet, err.Error()
	}
	m := Map{Frame: f, X: x, Limit: c.limit, Start: c.scenario.Model.Start, Ratio: c.ratios()}
	for j := range c.lines() {
		line, excess := make([]float64, len(x.Values)), make([]diffusion.Excess, len(x.Values))
		for i := range line {
			line[i], excess[i] = c.row(i, j).Mean, c.row(i, j).Excess
		}
		m.Content, m.Excess = append(m.Content, line), append(m.Excess, excess)
	}
	if len(c.drawn) == 1 {
		sheet.Figure = c.line(&m)
		return sheet, ""
	}
	if m.Y, err = c.axis(1); err != nil {
		return sheet, err.Error()
	}
	m.Here = c.here(x, m.Y)
	sheet.Figure = m
	return sheet, ""
}

// line is a map of one row as a line.
func (c *cut) line(m *Map) Line {
	l := Line{Frame: m.Frame, X: m.X, Limit: m.Limit, Content: m.Content[0], Excess: m.Excess[0]}
	if m.Ratio != nil {
		l.Ratio = m.Ratio[0]
		l.Low = c.spread(func(r *sweep.Row) float64 { return r.Low })[0]
		l.High = c.spread(func(r *sweep.Row) float64 { return r.High })[0]
	}
	return l
}

// axis is a drawn axis with its values in rising order.
func (c *cut) axis(n int) (Axis, error) {
	a := c.grid.Axes[c.drawn[n]]
	var values []float64
	for _, place := range c.order[n] {
		values = append(values, a.Values[place])
	}
	a.Values = values
	out, err := axisOf(a)
	if err != nil || !scenarios.Heats(a.Key) {
		return out, err
	}
	out.Heat, err = c.heat(a.Key, out.Unit)
	return out, err
}

// heat is where the strand of the figure gives way, in a unit.
func (c *cut) heat(k scenarios.Key, unit string) (*Heat, error) {
	var set []scenarios.Setting
	for _, at := range c.fixed {
		set = append(set, c.grid.Axes[at].Setting(c.at[at]))
	}
	s, err := c.scenario.With(set...)
	if err != nil {
		return nil, err
	}
	way := s.Model.Material.GivesWay()
	h := &Heat{}
	h.Bears, _ = k.Dimension.In(way.Min, unit)
	h.Yields, _ = k.Dimension.In(way.Max, unit)
	return h, nil
}

// row is the one at the i-th value of the abscissa and the j-th of the ordinate, by
// rising value.
func (c *cut) row(i, j int) *sweep.Row {
	at := slices.Clone(c.at)
	for n, place := range [...]int{i, j} {
		if n < len(c.drawn) {
			at[c.drawn[n]] = c.order[n][place]
		}
	}
	return &c.grid.Rows[c.grid.Index(at)]
}

// lines are how many rows lie above one another.
func (c *cut) lines() int {
	if len(c.drawn) < 2 {
		return 1
	}
	return len(c.order[1])
}

// obstacle tells why the part cannot be drawn, and finds its limit.
func (c *cut) obstacle() string {
	missing, shared := 0, true
	for j := range c.lines() {
		for i := range c.order[0] {
			switch row := c.row(i, j); {
			case row.Failed != "":
				missing++
			case c.limit == 0:
				c.limit = row.Limit
			case row.Limit != c.limit:
				shared = false
			}
		}
	}
	switch {
	case missing > 0:
		return "not drawn: " + strconv.Itoa(missing) + " of its rows without an answer"
	case !shared:
		return "not drawn: its rows do not share one limit"
	}
	return ""
}

// here is the scenario's own design, where all of its values are known and the figure is at its own.
func (c *cut) here(x, y Axis) *Mark {
	for _, k := range c.fixed { // a figure of another place is not its own
		if a := c.grid.Axes[k]; !a.Key.Known || c.at[k] >= len(a.Values) || a.Values[c.at[k]] != a.Key.Value {
			return nil
		}
	}
	var at [2]float64
	for n, unit := range [...]string{x.Unit, y.Unit} {
		key := c.grid.Axes[c.drawn[n]].Key
		if !key.Known {
			return nil
		}
		at[n] = key.Value
		if !key.Plain() {
			at[n], _ = key.Dimension.In(key.Value, unit)
		}
	}
	return &Mark{at[0], at[1]}
}

// fileName keeps of a text what a file's name may hold anywhere. Of a long one, such as the path of a material, it
// keeps the end, and a sum that tells it from others with the same end.
func fileName(text string) string {
	parts := strings.FieldsFunc(text, func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '.'
	})
	name := strings.Trim(strings.Join(parts, "-"), "-.")
	const most = 60
	if len(name) <= most {
		return name
	}
	sum := sha256.Sum256([]byte(text))
	return strings.Trim(name[len(name)-most+9:], "-.") + "-" + hex.EncodeToString(sum[:4])
}
