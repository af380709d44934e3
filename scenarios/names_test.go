package scenarios

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

// A material is understood as people write it, in the file and on an axis; a word for a family says what it was taken for, one
// with several meanings is answered with them.
func TestMaterialsAsWritten(t *testing.T) {
	design := func(material string) (*Scenario, error) {
		return Read("a.toml", fmt.Appendf(nil, "[strand]\nmaterial = %q\n[feed]\nspeed = \"1 mm/s\"\n[[zone]]\nname = \"a\"\nlength = \"1 m\"\n", material))
	}
	for given, want := range map[string]string{"PETG": "petg", " PA 12": "pa12", "Nylon": "pa6"} {
		s, err := design(given)
		require.NoError(t, err)
		require.Equal(t, want, s.Model.Material.ID)
		name, _ := s.Named()
		require.Equal(t, want, name)
		if want != "pa6" {
			require.Empty(t, s.Taken)
			continue
		}
		require.Equal(t, []string{`strand.material: "Nylon" taken as pa6; others: pa66, pa6-66, pa12, pa6-cf20`}, s.Taken)
		require.Contains(t, s.Assumed, s.Taken[0])
		again, err := s.With(Setting{Key: "feed.speed", Value: "2 mm/sec"})
		require.NoError(t, err)
		require.Equal(t, s.Taken, again.Taken)
	}
	_, err := design("TPU")
	var faults strict.Faults
	require.ErrorAs(t, err, &faults)
	require.ErrorContains(t, err, `a.toml:2: strand.material = "TPU": unknown material; allowed: tpu-ester, tpu-ether, or a material file of your own`)

	s, err := design("pla")
	require.NoError(t, err)
	s, err = s.Varied("strand.material=PETG, nylon")
	require.NoError(t, err)
	require.Equal(t, []string{"petg", "pa6"}, s.Vary[0].Names)
	require.Len(t, s.Taken, 1)
	_, err = s.Varied("strand.material=pla, tpu")
	require.ErrorContains(t, err, "tpu-ester, tpu-ether")
}
