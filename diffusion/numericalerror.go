package diffusion

import "math"

// What a march is off by is told from a refined one by the grid convergence index (Roache, Verification and Validation in Computational
// Science and Engineering (1998); ASME V&V 20), which takes the difference of the two for the error of a method of known order, and
// adds a quarter.
//
// The orders and the least errors below were chosen on 3,000 random models, each marched with [DefaultSettings], the same refined, and on a grid six
// times as fine with steps a hundred thousand times as exact: the 1,000 of cover_test.go, of any material, zone and storage, and 2,000 of one or
// two zones whose moist air wets a drier strand, of materials whose diffusivity changes with the content. The band held the mean, the centre
// and the skin at the nozzle, and the skin after the first zone, in all of them. Of 1,160 more of any kind, drawn after, it held the mean in all, and
// left out the centre of one and the skin of another, by less than 3e-5 of the content. An order of 2 for lumped grids too would have left out one
// of the 3,000, the order of 4 that the method has for a smooth solution seven. The band held all four in 118 models with a cover in its place.
const (
	gridSafety = 1.25
	gridRatio  = 2
	// smoothOrder is what the mean showed, or more, in 95 of 100 of the 1,000 where refining moved it by 1e-5 of itself or more.
	smoothOrder = 2
	// frontOrder is that of lumped grids ([Model.steep]): a front that has just come to the axis was off by 24 % there, and by 10 % refined.
	frontOrder = 1

	// leastError is added for what refining does not show: air and strand that agree to a
	// millionth, chance agreement of two grids, of which the largest was 4.4e-5 in 800 random models. That a strand of small Biot number has one temperature is
	// the model's and is not in it.
	leastError = 5e-5
	// frontError is added at resolution 5, and a share of it where the diffusivity grows by less than an eighth with the
	// content: an error of space that refining once may not show, since the front has moved along the nodes as well. The largest
	// found beyond the index were 2.7e-4 and 2.6e-4, in wetted PVA and polyamides.
	frontError, frontGrowth, frontResolution = 3e-4, 1. / 8, 5
	// coverError is added at resolution 5 where a cover keeps its place: an error of the angles of which refining
	// shows the most, but not always. The largest found beyond it, of the content that is left, was 2e-4.
	coverError = 2e-4

	// angular times what marches with the usual and the coarse angles differ by is taken for the error of the usual ones: at twice the difference one of 60
	// random models with covers of up to four fifths was left out, by a sixth, at three times none.
	angular = 3
)

// GridConvergenceIndex is the half-width of the band that holds the exact value of the model, from one value and the same with
// [Settings.Refined], in the unit of both; [Model.LeastError] of the value is still to be added.
func (m *Model) GridConvergenceIndex(coarse, refined float64) float64 {
	ratio := m.convergence()
	return gridSafety * ratio / (ratio - 1) * math.Abs(coarse-refined)
}

// convergence is by how much refining lessens the error of a march.
func (m *Model) convergence() float64 {
	order := float64(smoothOrder)
	if m.steep() {
		order = frontOrder
	}
	return math.Pow(gridRatio, order)
}

// coarserIndex is the half-width of the same band over the difference to a value with settings that are coarsened: the error of the finer of two marches is less
// than their difference by the same ratio.
func (m *Model) coarserIndex() float64 { return gridSafety / (m.convergence() - 1) }

// LeastError is the error, relative to a content [-], that is added to its [Model.GridConvergenceIndex]: what one refined run does not show.
func (m *Model) LeastError(s Settings) float64 {
	share := frontError * min(1, math.Abs(m.growth())/frontGrowth)
	if m.covered() {
		share += coverError
	}
	return leastError + share*min(1, frontResolution/s.filled().Resolution)
}
