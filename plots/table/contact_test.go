package table

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// Each cover is told with the model that stands for it; an open zone needs no words.
func TestCoversSayWhichModelWasUsed(t *testing.T) {
	exposed := 0.9
	r := &diffusion.Result{Zones: []diffusion.ZoneResult{
		{Name: "open"},
		{Name: "drum", Contact: diffusion.Contact{Covered: 1 - exposed, Arcs: 1}, Behind: 0.0231, Exit: diffusion.State{Skin: 0.001}},
		{Name: "damp tube", Contact: diffusion.Contact{Covered: 0.6, Arcs: 4}, Behind: 0.001, Exit: diffusion.State{Skin: 0.02}},
		{Name: "roller", Contact: diffusion.Contact{Covered: 0.2, Arcs: 1, Moves: true}},
	}}
	require.Equal(t, []string{
		"drum: 10 % of the strand's perimeter is covered by one arc that stays in its place; the water behind has to go round (the section is followed in radius and angle). Behind the cover the skin still holds 2.31 % at the exit.",
		"damp tube: its cover is taken to find the strand turned since drum, its water even all round; if it covers the same side again, more stays behind.",
		"damp tube: 60 % of the strand's perimeter is covered by 4 arcs that stay in their places; the water behind has to go round (the section is followed in radius and angle). Behind the covers the skin holds 0.100 % at the exit.",
		"roller: 20 % of the strand's perimeter is covered by a contact that wanders round the strand: the film is thinned by that share.",
	}, Covers(r))
	require.Equal(t, "section", contactOf(r.Zones[1].Contact)[3].value)
	require.Equal(t, "film", contactOf(r.Zones[3].Contact)[3].value)
	require.Equal(t, object{{"covered", 0.0}, {"arcs", 0}, {"moves", false}, {"model", "film"}}, contactOf(r.Zones[0].Contact))
}
