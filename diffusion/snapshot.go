package diffusion

// Section is the whole section of a strand at one time, while a cover keeps its place. It stands for the sector from the
// middle of an exposed arc to the middle of the next covered one; all else round is its mirror images, since the arcs are equal and even.
type Section struct {
	Zone    int         // index in the path
	Time    float64     // since the entry of the zone [s]
	Radius  []float64   // of the nodes [m], rising to the surface
	Angle   []float64   // of the nodes [rad], from the middle of an exposed arc rising towards that of a covered one, π/Arcs, which no node has
	Content [][]float64 // [radius][angle], not below zero [kg/kg dry]
	Arcs    int         // number of covered arcs
	Exposed float64     // share of the perimeter that meets the air: the edge of a cover lies at Exposed π/Arcs
	Mean    float64     // area mean of the content [kg/kg dry]
}

// cuts are the shares of the time in a zone at which a trace shows the section.
func cuts() [3]float64 { return [...]float64{1. / 20, 1. / 3, 1} }

// cut keeps the section at the first step that reaches the next of the times.
func (t *Trace) cut(l *strand, time float64, c []float64) {
	const slack = 1e-9 // of the sum of the steps
	taken := len(t.Sections) - t.whole
	z := &l.model.Path[t.zone]
	if all := cuts(); taken >= len(all) || time < all[taken]*z.Residence(l.model.Speed)*(1-slack) {
		return
	}
	g := l.crossing.grid
	s := Section{Zone: t.zone, Time: time, Arcs: z.Contact.Arcs, Exposed: z.Contact.Exposed(), Mean: g.Mean(c)}
	for a := range g.Angles() {
		s.Angle = append(s.Angle, g.Angle(a))
	}
	for i := range l.cylinder.Grid.Len() {
		s.Radius = append(s.Radius, l.cylinder.Grid.Node(i)*l.model.Radius)
		s.Content = append(s.Content, profile(nil, c[i*g.Angles():(i+1)*g.Angles()]))
	}
	t.Sections = append(t.Sections, s)
}
