package page

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"
	"sync"

	"strandry/diffusion"
	"strandry/plots/figure"
	"strandry/plots/table"
	"strandry/scenarios/size"
	"strandry/scenarios/suits"
)

// Names of the figures' files, without their endings.
const (
	pathName     = "path"
	profilesName = "profiles"
	heatMapName  = "heat-map"
	sectionName  = "section"
	mapName      = "trade-off"
	neededName   = "length-needed"
	suitsName    = "materials"
)

// drawing is a figure with the words around it.
type drawing struct {
	name, head, kind, caption string // kind says in the alternative text what sort of figure it is
	figure                    figure.Figure
}

// pictures draws the figures; missing tells of those that cannot be drawn, and why.
func (l *Log) pictures() (pictures []*picture, missing []string, err error) {
	drawings, missing := l.drawings()
	pictures, failed := make([]*picture, len(drawings)), make([]error, len(drawings))
	var all sync.WaitGroup
	for i := range drawings {
		all.Go(func() { pictures[i], failed[i] = drawings[i].encode(i + 1) })
	}
	all.Wait()
	for _, err := range failed {
		if err != nil {
			return nil, nil, err
		}
	}
	return pictures, missing, nil
}

func (d *drawing) encode(number int) (*picture, error) {
	p := &picture{Number: number, Name: d.name, Head: d.head, Caption: d.caption, Alt: d.kind + " " + plain(d.figure.Headline()) + "."}
	var err error
	if p.PNG, err = figure.Encode(d.figure, figure.PNG); err != nil {
		return nil, fmt.Errorf("figure %s: %w", d.name, err)
	}
	if p.SVG, err = figure.Encode(d.figure, figure.SVG); err != nil {
		return nil, fmt.Errorf("figure %s: %w", d.name, err)
	}
	c, err := png.DecodeConfig(bytes.NewReader(p.PNG))
	if err != nil {
		return nil, fmt.Errorf("figure %s: %w", d.name, err)
	}
	p.Width, p.Height = c.Width/2, c.Height/2 // drawn at twice the size at which it is shown
	return p, nil
}

// plain takes out the spaces that hold a number and its unit together.
func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// drawings lists the figures in their order.
func (l *Log) drawings() (all []drawing, missing []string) {
	m, v := l.Answer.Model, l.Survey
	frame := figure.FrameOf(l.Scenario, l.Answer.Version)
	all = []drawing{
		{pathName, "Moisture along the path", "A line chart of moisture and temperature over the place on the path.", l.pathCaption(), figure.Path{Frame: frame, Model: m, Trace: v.Trace}},
		{profilesName, "From the surface to the centre", "A line chart of moisture over the radius at several places.", l.profilesCaption(), figure.Profiles{Frame: frame, Model: m, Trace: v.Trace}},
	}
	heat := figure.HeatMap{Frame: frame, Model: m, Trace: v.Trace}
	all = append(all, drawing{heatMapName, "Radius by place", "A map of moisture over place and radius.", plain(heat.Headline()) + ".", heat})
	if disc, covered := figure.SectionOf(m, v.Trace, frame); covered {
		all = append(all, drawing{sectionName, "The section of the strand", "The section of the strand as a disc at three times, coloured by moisture.", sectionCaption(disc), disc})
	}
	if chart, why := l.chart(frame); why == "" {
		all = append(all, drawing{mapName, "Length against feed", "A filled map of moisture at the nozzle over length and feed, with the limit as a contour.", l.mapCaption(chart), chart})
	} else {
		missing = append(missing, "Length against feed: "+why)
	}
	if v.Needed != nil {
		frame.Settings = figure.SettingsText(diffusion.CoarseSettings())
		f := figure.NeededOf(l.Scenario, v.Needed, frame)
		all = append(all, drawing{neededName, "Length needed against temperature", "A line chart of the length needed over temperature, one line for each feed.", l.neededCaption(f), f})
	} else {
		missing = append(missing, "Length needed against temperature: "+v.NeedReason)
	}
	if v.Suits != nil {
		frame.Settings = figure.SettingsText(l.Scenario.Settings)
		f := figure.SuitsOf(v.Suits, v.Suits.Soaked, frame)
		all = append(all, drawing{suitsName, "Length that each material needs", "A chart of the length needed for each material, with its spread.", l.suitsCaption(), f})
	} else {
		missing = append(missing, "Length that each material needs: "+v.SuitsReason)
	}
	return all, missing
}

// chart is the trade-off map, or the reason for which there is none.
func (l *Log) chart(frame figure.Frame) (figure.Map, string) {
	if l.Survey.Map == nil {
		return figure.Map{}, l.Survey.MapReason
	}
	sheets, undrawn := figure.OfSweep(l.Survey.Map, l.Scenario, frame)
	for _, s := range sheets {
		if m, ok := s.Figure.(figure.Map); ok {
			return m, ""
		}
	}
	return figure.Map{}, strings.ReplaceAll(strings.Join(undrawn, "; "), "map: not drawn: ", "")
}

// shown is the section of figures.
func shown(pictures []*picture, missing []string) []block {
	var blocks []block
	for _, p := range pictures {
		blocks = append(blocks, block{Picture: p})
	}
	if len(missing) > 0 {
		blocks = append(blocks, text("Not drawn for this scenario:"), block{List: missing})
	}
	return blocks
}

func (l *Log) pathCaption() string {
	m, r := l.Answer.Model, l.Answer.Assessment
	var ends []string
	before := r.Start.Mean
	for _, z := range r.Zones {
		word := "falls"
		if z.Exit.Mean > before {
			word = "rises"
		}
		ends = append(ends, fmt.Sprintf("%s in %s from %s to %s", word, z.Name, table.Percent(before), table.Percent(z.Exit.Mean)))
		before = z.Exit.Mean
	}
	return fmt.Sprintf("The mean %s; the limit is %s. At the nozzle the centre holds %s, the skin %s.",
		joined(ends), table.Limit(m.Limit), table.Cell(r.Nozzle.Centre)+" %", table.Percent(r.Nozzle.Skin))
}

func (l *Log) profilesCaption() string {
	r := l.Answer.Assessment
	z := r.Zones[l.Survey.Zone]
	return fmt.Sprintf("At the end of %s the centre holds %s, the mean is %s and the skin holds %s, where %s would be at rest with the air. "+
		"The Fourier number there is %s: nine tenths of the water need about 0.33.",
		z.Name, table.Cell(z.Exit.Centre)+" %", table.Percent(z.Exit.Mean), table.Percent(z.Exit.Skin), table.Percent(z.Equilibrium), table.Significant(z.Fourier, 2))
}

func sectionCaption(f figure.Section) string {
	return plain(f.Headline()) + ". The dark band outside the rim is what covers the strand; the water behind it leaves only by going round. The black line is the limit."
}

func (l *Log) mapCaption(f figure.Map) string {
	fit, soft, doubtful := f.Fits()
	heat := ""
	if soft > 0 {
		heat = fmt.Sprintf(" and do not soften, %d are within it and soften", soft)
	}
	if doubtful > 0 {
		heat += fmt.Sprintf("; %d of the first may soften", doubtful)
	}
	return fmt.Sprintf("%s. Of the %d designs on this map, %d are within the limit%s; all else is as in the scenario. The ring marks the scenario's own design.",
		plain(f.Headline()), len(f.X.Values)*len(f.Y.Values), fit, heat)
}

func (l *Log) neededCaption(f figure.Needed) string {
	text := plain(f.Headline()) + "."
	at := 0
	for i, t := range f.Temperatures {
		if t <= f.HeatLimit+1e-6 {
			at = i
		}
	}
	var each []string
	for k, v := range f.Speeds {
		switch length := f.Lengths[k][at]; {
		case length == 0:
		case length <= size.Shortest:
			each = append(each, "none at "+table.Speed(v))
		default:
			each = append(each, fmt.Sprintf("%s at %s", table.Length(atLeast(length)), table.Speed(v)))
		}
	}
	if len(each) > 0 {
		text += fmt.Sprintf(" At %s, the limit of %s needs %s.", table.Celsius(f.Temperatures[at]), table.Limit(f.Limit), joined(each))
	}
	if t := l.Survey.Needed; t.Unanswered > 0 {
		text += fmt.Sprintf(" Places without an answer: %d; the first of them: %s.", t.Unanswered, t.Reason)
	}
	text += " " + table.AirRule(l.Answer.Model.Held())
	return text + fmt.Sprintf(" Beyond %s, the highest to dry at, and beyond %s, the longest that is to be built, the ground is shaded. A strand of %s begins to give way between %s and %s; there is no line where it softens.",
		table.Celsius(f.HeatLimit), table.Length(f.Longest), f.Material, table.Celsius(f.GivesWay.Min), table.Celsius(f.GivesWay.Max))
}

func (l *Log) suitsCaption() string {
	counts := map[suits.Class]int{}
	for _, r := range l.Survey.Suits.Soaked {
		counts[r.Class]++
	}
	unanswered := ""
	if n := counts[suits.Unanswered]; n > 0 {
		unanswered = fmt.Sprintf("; without an answer: %d", n)
	}
	return fmt.Sprintf("Materials that set off in equilibrium with the room: %d; within their limits as they are, at the medians: %d; dried by up to %s of %s: %d; need more of it: %d; dried by no length: %d%s. "+
		"A heated zone is at the usual highest drying temperature of each; the bars are the spread that the doubt about its diffusivity allows. Beside each name stands the temperature of the air, and up to which a strand of it holds.",
		len(l.Survey.Suits.Soaked), counts[suits.AsItIs], table.Length(l.Survey.Suits.Longest), l.Survey.Suits.Zone, counts[suits.Buildable],
		counts[suits.TooLong], counts[suits.Forbidden], unanswered)
}
