package fit

// Finding is something about weighings that their user should know.
type Finding struct {
	File  string // of the masses; "" for all
	Line  int    // 0 for none
	Text  string // a sentence or two
	Grave bool   // the answer should not be relied on before it is mended
}

func (o *Outcome) examine() { o.Told = o.Diffusivity.Factor() < 3 }
