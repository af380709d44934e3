package machine_test
import ("testing";"strandry/diffusion";"strandry/diffusion/machine")
func TestX(t *testing.T) {
	for _, f := range []float64{0.0005,0.005, 0.05,0.2, 1, 3, 30} {
		d, m := built(t)
		d.Path[0].Air.VolumeFlow = f*litre
		var r diffusion.Result
		if err := diffusion.NewMarch().Run(&d.Model, diffusion.DefaultSettings(), &r); err != nil { t.Log(f, err); continue }
		a, err := machine.Tell(diffusion.NewMarch(), d, &r, m)
		if err != nil { t.Log(f, err); continue }
		w := a.Chambers[0].Water
		t.Log(f, w.Searched, w.Least/litre, w.Enough/litre, w.Given*3.6e6, "g/h", r.Zones[0].Exit.Mean, a.Chambers[0].Steady, a.Chambers[0].WarmUp, a.Chambers[0].Along, a.Bed.Life, a.Warnings)
	}
}
