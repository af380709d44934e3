package advice

import "strandry/diffusion"

// heatedAbove is how much warmer than the room a heated zone is [K].
const heatedAbove = 5

// Reheat sets every heated zone of the path, one that is more than five kelvins above the room [K], to the
// usual highest drying temperature of the material, or to what the strand bears where that is less. Its air is that which
// [diffusion.Air.At] gives.
func Reheat(m *diffusion.Design, room float64) {
	for i := range m.Path {
		if air := &m.Path[i].Air; air.Temperature > room+heatedAbove {
			*air = air.At(m.Material.HottestDrying())
		}
	}
}
