package suits_test

import (
	"runtime/debug"
	"testing"

	"strandry/diffusion/samples"
)

func TestMain(m *testing.M) {
	debug.SetGCPercent(samples.Collect)
	m.Run()
}
