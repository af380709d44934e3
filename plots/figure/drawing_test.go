package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/shape"
)

const strandOf = 1.75e-3 // [m]

// aChamber is a chamber of such a way, its numbers made by hand.
func aChamber(name string, way shape.Way, insulation float64, against diffusion.Direction) Chamber {
	lead, err := way.Lead(strandOf)
	if err != nil {
		panic(err)
	}
	drawn, err := way.Outline(strandOf, against == diffusion.Against)
	if err != nil {
		panic(err)
	}
	h := lead.Housing
	return Chamber{
		Name: name, Temperature: 353.15, Length: lead.Length, Way: way, Outline: drawn, Insulation: insulation,
		Outer: [3]float64{h.Length + 2*insulation, h.Width + 2*insulation, h.Height + 2*insulation}, Fits: true,
		Heated: true, Needed: 33, Size: 50, Flow: 5e-3 / 60, Against: against,
	}
}

// aMachine is twelve metres on a drum.
func aMachine() Machine {
	return Machine{
		Frame: frame(), Box: machine.Box{Length: 0.4, Width: 0.3, Height: 0.3},
		Chambers: []Chamber{aChamber("drum", shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 25.16, Layers: 1, Gap: 0.02, Wall: 0}, 0.02, diffusion.Against)},
	}
}

// severalMachines are a tube, passes that do not fit the box, and a drum in two layers in mixed air.
func severalMachines() Machine {
	m := Machine{Frame: frame(), Box: machine.Box{Length: 0.5, Width: 0.3, Height: 0.3}}
	passes := aChamber("passes", shape.Passes{Span: 0.4, Roller: 0.06, Count: 12, Gap: 0.02}, 0, diffusion.With)
	passes.Fits, passes.Most, passes.Heater = false, 2.1, 60
	tube := aChamber("tube", shape.Tube{Length: 0.45, Bore: 0.02, Wall: 2e-3}, 0.01, diffusion.Against)
	tube.Heated = false
	m.Chambers = []Chamber{tube, passes, aChamber("drum", shape.Winding{Drum: 0.1, Pitch: 2e-3, Turns: 60.4, Layers: 2, Gap: 0.02, Wall: 3e-3}, 0, diffusion.Mixed)}
	return m
}

func TestLookAtMachines(t *testing.T) {
	for name, f := range map[string]Figure{"a": aMachine(), "b": severalMachines()} {
		require.NoError(t, checked(f))
		files, err := Encode(f, "png", "svg")
		require.NoError(t, err)
		write(t, "/tmp/draw_"+name+".png", files[0])
		clean(t, name, f)
	}
}
