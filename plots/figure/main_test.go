package figure

import (
	"testing"

	"strandry/diffusion/samples"
)

func TestMain(m *testing.M) {
	samples.Run(m)
}
