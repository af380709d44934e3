package scenarios_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

// The first step into a zone is seldom too long, whatever the strand has been through: of the tries of a march hardly one is in vain.
func TestStepsAreTaken(t *testing.T) {
	for name, settings := range map[string]diffusion.Settings{"run": diffusion.DefaultSettings(), "sweep": diffusion.CoarseSettings(), "odds": diffusion.DrawSettings()} {
		for _, demo := range scenarios.Demos() {
			s, err := scenarios.Demo(demo)
			require.NoError(t, err)
			var r diffusion.Result
			require.NoError(t, diffusion.NewMarch().Run(&s.Model, settings, &r))
			require.LessOrEqual(t, r.Rejected, 1, "%s at the settings of %s: of %d steps", demo, name, r.Steps)
			require.Less(t, r.Steps, 100)
		}
	}
}
