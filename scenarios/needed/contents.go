package needed

import (
	"context"
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/scenarios"
	"strandry/scenarios/each"
)

// Design is what becomes of one length and speed.
type Design struct {
	Mean   float64          // content at the nozzle [kg/kg dry]
	Excess diffusion.Excess // of the heat
}

// Contents is what becomes of the strand, on all cores: Contents[j][i] at speeds[j] [m/s]
// and the rising lengths[i] [m] of a zone. One march serves all lengths where the air allows.
func Contents(ctx context.Context, s *scenarios.Scenario, zone int, lengths, speeds []float64, n diffusion.Settings) ([][]Design, error) {
	if zone < 0 || zone >= len(s.Model.Path) {
		return nil, fmt.Errorf("needed: the path has no zone %d", zone)
	}
	return each.Of(ctx, len(speeds), func(w *diffusion.March, j int) ([]Design, error) {
		m := s.Model
		m.Speed = speeds[j]
		row := make([]Design, len(lengths))
		err := w.RunLengths(&m, zone, lengths, n, func(i int, r *diffusion.Result) error {
			row[i] = Design{r.Nozzle.Mean, r.Endures(&m).Excess()}
			return ctx.Err()
		})
		return row, err
	})
}

// Around gives so many lengths [m] of a zone, from a tenth of the lesser of what is given and what can be
// built to ten times the greater, and so many speeds [m/s] from a quarter to four times that given,
// both by even ratios. count is at least two.
func Around(s *scenarios.Scenario, zone, count int) (lengths, speeds []float64) {
	given, most := s.Model.Path[zone].Length, s.Build.Longest
	low, high := min(given, most)/10, max(given, most)*10
	for i := range count {
		share := float64(i) / float64(count-1)
		lengths = append(lengths, low*math.Pow(high/low, share))
		speeds = append(speeds, s.Model.Speed*math.Pow(16, share-0.5))
	}
	return lengths, speeds
}
