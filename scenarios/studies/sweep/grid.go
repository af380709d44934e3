package sweep

import (
	"strandry/diffusion"
	"strandry/scenarios"
)

// Grid is the outcome of a sweep.
type Grid struct {
	Axes []scenarios.Axis
	Rows []Row // row-major, the last axis fastest

	Quick bool // without Low, High, Ratio, Probability and Verdict; at its knots, if it has any, with the first three
	// NumericalError is the largest half-width of the band that holds the exact solution
	// of the model, at the corners and in the middle of the grid [kg/kg dry].
	NumericalError float64
	// RelativeError is the largest of them over the content there [-].
	RelativeError float64
	Checked       int // rows at which the two were found

	Sketched *Sketched // how far rows that a chart tells may be off; nil where each was marched
}

// Row is the outcome of one combination.
type Row struct {
	Mean     float64           // content at the nozzle [kg/kg dry]
	Centre   float64           // on the axis [kg/kg dry]
	Skin     float64           // at the surface [kg/kg dry]
	Low      float64           // 10 % point of the mean, see [diffusion.Odds] [kg/kg dry]
	High     float64           // 90 % point [kg/kg dry]
	Limit    float64           // that holds for this row [kg/kg dry]
	Removed  float64           // share of the starting content that is gone; negative if it grew [-]
	Verdict  diffusion.Verdict // the numerical error counted as far as the grid tells it
	Excess   diffusion.Excess  // of the heat at the central diffusivity
	Settings diffusion.Settings

	Probability float64           // that the mean is within the limit [-]
	Density     float64           // its rise with the logarithm of the limit [-]
	Ratio       diffusion.Between // 10 and 90 % points of the content over the limit; zero without odds [-]

	// Failed tells why there is no answer; "" where there is one. All contents are zero
	// then, and the settings too where the combination is no scenario.
	Failed string
}

// At returns the places on the axes of the row with the given index.
func (g *Grid) At(row int) []int { return places(g.Axes, row) }

// settings are those of the row.
func (g *Grid) settings(row int) (set []scenarios.Setting) {
	for i, place := range g.At(row) {
		set = append(set, g.Axes[i].Setting(place))
	}
	return set
}

// Index is the row at the given places on the axes.
func (g *Grid) Index(at []int) int { return index(g.Axes, at) }

// places splits a row's index into one for each axis.
func places(axes []scenarios.Axis, row int) []int {
	at := make([]int, len(axes))
	for i := len(axes) - 1; i >= 0; i-- {
		n := axes[i].Len()
		at[i] = row % n
		row /= n
	}
	return at
}

// index joins places on the axes into a row's index.
func index(axes []scenarios.Axis, at []int) int {
	row := 0
	for i, axis := range axes {
		row = row*axis.Len() + at[i]
	}
	return row
}

// Survives tells whether the strand keeps its shape.
func (row *Row) Survives() diffusion.Survival { return row.Excess.Survival() }

// Fits tells that the row meets its limit at the central diffusivity and that its strand does not soften.
func (row *Row) Fits() bool {
	return row.Failed == "" && row.Mean <= row.Limit && row.Survives() != diffusion.Softens
}

// Answered counts the rows that have an answer.
func (g *Grid) Answered() int {
	n := 0
	for i := range g.Rows {
		if g.Rows[i].Failed == "" {
			n++
		}
	}
	return n
}
