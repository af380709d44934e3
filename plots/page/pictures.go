package page

import (
	"bytes"
	"context"
	"fmt"
	"image/png"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/table"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// Names of the figures' files, without their endings.
const (
	pathName     = "path"
	profilesName = "profiles"
	heatmapName  = "heatmap"
	sectionName  = "section"
	drawingName  = "drawing"
	fillingName  = "desiccant"
	mapName      = "trade-off"
	variedName   = "varied"
	neededName   = "needed"
	suitsName    = "materials"
)

// drawing is a figure with the words around it.
type drawing struct {
	name, head, kind, caption string // kind says in the alternative text what sort of figure it is
	figure                    figure.Figure
}

// pictures draws the figures; missing tells of those that cannot be drawn, and why.
func (l *Log) pictures() (pictures []*picture, missing []string, err error) {
	drawings, missing, err := l.drawings()
	if err != nil {
		return nil, nil, err
	}
	pictures, err = encoded(drawings...)
	return pictures, missing, err
}

// encoded makes pictures of drawings, numbered from 1.
func encoded(drawings ...drawing) (pictures []*picture, err error) {
	var sheets []figure.Sheet
	for _, d := range drawings {
		sheets = append(sheets, figure.Sheet{Name: d.name, Figure: d.figure})
	}
	drawn, err := figure.EncodeAll(context.Background(), sheets, canvas.PNG, canvas.SVG)
	if err != nil {
		return nil, err
	}
	for i, d := range drawings {
		if err := drawn[i].Err; err != nil {
			return nil, fmt.Errorf("figure %s: %w", d.name, err)
		}
		p := &picture{Number: i + 1, Name: d.name, Head: d.head, Caption: d.caption, Alt: d.kind + " " + plain(d.figure.Headline()) + ".", PNG: drawn[i].Files[0], SVG: drawn[i].Files[1]}
		c, err := png.DecodeConfig(bytes.NewReader(p.PNG))
		if err != nil {
			return nil, fmt.Errorf("figure %s: %w", d.name, err)
		}
		p.Width, p.Height = c.Width/2, c.Height/2 // drawn at twice the size at which it is shown
		pictures = append(pictures, p)
	}
	return pictures, nil
}

// plain takes out the spaces that hold a number and its unit together.
func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// drawings lists the figures in their order.
func (l *Log) drawings() (all []drawing, missing []string, err error) {
	m, v := l.Answer.Design, l.Survey
	frame := figure.FrameOf(l.Scenario, l.Answer.Version)
	odds := &l.Answer.Assessment.Odds
	path, err := figure.PathOf(diffusion.NewMarch(), m, v.Trace, odds, l.Answer.Assessment.Settings, frame)
	if err != nil {
		return nil, nil, fmt.Errorf("figure %s: %w", pathName, err)
	}
	all = []drawing{
		{pathName, "Moisture along the path", "A line chart of moisture and temperature over the place on the path.", l.pathCaption(path.Span != nil), path},
		{profilesName, "From the surface to the centre", "A line chart of moisture over the radius at several places.", l.profilesCaption(), figure.Profiles{Frame: frame, Design: m, Trace: v.Trace, Odds: odds}},
	}
	heat := figure.Heatmap{Frame: frame, Design: m, Trace: v.Trace}
	all = append(all, drawing{heatmapName, "Radius by place", "A map of moisture over place and radius.", plain(heat.Headline()) + ".", heat})
	if disc, covered := figure.SectionOf(m, v.Trace, frame); covered {
		all = append(all, drawing{sectionName, "The section of the strand", "The section of the strand as a disc at three times, coloured by moisture.", plain(disc.Headline()) + ". The dark band outside the rim is what covers the strand; the water behind it leaves only by going round. The black line is the limit.", disc})
	}
	built, undrawn, err := l.built(frame)
	if err != nil {
		return nil, nil, err
	}
	surveyed, missing := l.surveyed(frame)
	return slices.Concat(all, built, surveyed), append(undrawn, missing...), nil
}

// surveyed are the drawings of what was varied.
func (l *Log) surveyed(frame figure.Frame) (all []drawing, missing []string) {
	v := l.Survey
	if chart, why := l.chart(frame); why == "" {
		all = append(all, drawing{mapName, "Length against feed", "A filled map of moisture at the nozzle over length and feed, with the limit as a contour.", l.mapCaption(chart), chart})
	} else {
		missing = append(missing, "Length against feed: "+why)
	}
	varied, undrawn := l.varied(frame)
	all, missing = append(all, varied...), append(missing, undrawn...)
	if v.Needed != nil {
		f := figure.NeededOf(l.Scenario, v.Needed, frame)
		d := drawing{neededName, "Length needed against temperature", "A line chart of the length needed over temperature, one line for each feed.", "", f}
		switch f := f.(type) {
		case figure.Needed:
			if met, reliable := v.Length.Least(); reliable > 0 {
				f = f.WithOwnLength(l.Scenario.Model.Path[v.Zone].Air.Temperature, met, reliable)
				d.figure = f
			}
			d.caption = l.neededCaption(f)
		default:
			d.head, d.kind = "What any length leaves, against temperature", "A line chart of the least moisture that any length leaves over temperature."
			d.caption = l.floorCaption()
		}
		all = append(all, d)
	} else {
		missing = append(missing, "Length needed against temperature: "+v.NeededReason)
	}
	if v.Suits != nil {
		f := figure.SuitsOf(v.Suits, v.Suits.Soaked, frame)
		all = append(all, drawing{suitsName, "Length that each material needs", "A chart of the length needed for each material, from the medians to nine times in ten.", l.suitsCaption(), f})
	} else {
		missing = append(missing, "Length that each material needs: "+v.SuitsReason)
	}
	return all, missing
}

// varied are the drawings of what the scenario varies itself.
func (l *Log) varied(frame figure.Frame) (all []drawing, missing []string) {
	v := l.Survey
	switch {
	case v.VariedReason != "":
		return nil, []string{"What the scenario varies: " + v.VariedReason}
	case v.Varied == nil:
		return nil, nil
	}
	sheets, undrawn := figure.OfSweep(v.Varied, l.Scenario, frame)
	for _, why := range undrawn {
		missing = append(missing, "What the scenario varies: "+why)
	}
	for _, s := range sheets {
		if line, ok := s.Figure.(figure.Line); ok && len(v.Varied.Axes) == 1 && v.Varied.Axes[0].Key.Name == l.Scenario.ZoneKey(v.Zone, "length") {
			line.Met, line.Reliable = l.Survey.Length.Least()
			s.Figure = line
		}
		kind := "A line chart of moisture at the nozzle over what the scenario varies, with the limit and a band of doubt."
		if _, mapped := s.Figure.(figure.Map); mapped {
			kind = "A filled map of moisture at the nozzle over what the scenario varies, with the limit as a contour."
		}
		all = append(all, drawing{variedName + "-" + s.Name, "What the scenario varies", kind,
			plain(s.Figure.Headline()) + ". All else is as in the scenario; eight times in ten the moisture lies in the grey band.", s.Figure})
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
			m.Met, m.Reliable = l.Survey.Length.Least()
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

func (l *Log) pathCaption(band bool) string {
	m, r := l.Answer.Design, l.Answer.Assessment
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
	text := fmt.Sprintf("The mean %s; the limit is %s. At the nozzle the centre holds %s, the skin %s.",
		table.Joined(ends), table.Limit(m.Limit), table.Cell(r.Nozzle.Centre)+" %", table.Percent(r.Nozzle.Skin))
	if band {
		text += " The grey band lies between two strands, of which one ends drier and one wetter than the mean does eight times in ten: " + table.Spanned(r.Low, r.High) + "."
	}
	return text
}

func (l *Log) profilesCaption() string {
	r := l.Answer.Assessment
	z := r.Zones[l.Survey.Zone]
	return fmt.Sprintf("At the end of %s the centre holds %s, the mean is %s and the skin holds %s, where %s would be at rest with the air. "+
		"The Fourier number there is %s: nine tenths of the water need about 0.33.",
		z.Name, table.Cell(z.Exit.Centre)+" %", table.Percent(z.Exit.Mean), table.Percent(z.Exit.Skin), table.Percent(z.Equilibrium), table.Significant(z.Fourier, 2))
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
	return fmt.Sprintf("%s. Of the %d designs on this map, %d are within the limit%s; all else is as in the scenario. The ring marks the scenario's own design. In the grey belt between the dashed lines a design is neither dry nor wet nine times in ten.",
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
		text += fmt.Sprintf(" At %s, the limit of %s needs %s.", table.Celsius(f.Temperatures[at]), table.Limit(f.Limit), table.Joined(each))
	}
	if t := l.Survey.Needed; t.Unanswered > 0 {
		text += fmt.Sprintf(" Places without an answer: %d; the first of them: %s.", t.Unanswered, t.Reason)
	}
	text += " " + table.AirRule(l.Answer.Design.Held())
	return text + fmt.Sprintf(" Beyond %s, the highest to dry at, and beyond %s, the longest that is to be built, the ground is shaded. A strand of %s begins to give way between %s and %s; there is no line where it softens.",
		table.Celsius(f.HeatLimit), table.Length(f.Longest), f.Material, table.Celsius(f.GivesWay.Min), table.Celsius(f.GivesWay.Max))
}

func (l *Log) floorCaption() string {
	m := l.Answer.Design
	return fmt.Sprintf("No length of %s is enough at any of these temperatures and feeds, at the medians; what is left is shown in its place, with the band in which it lies eight times in ten. "+
		"%s A strand of %s begins to give way between %s and %s.", m.Path[l.Survey.Zone].Name, table.AirRule(m.Held()), m.Material.Name, table.Celsius(m.Material.GivesWay().Min), table.Celsius(m.Material.GivesWay().Max))
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
		"A heated zone is at the usual highest drying temperature of each; the grey bars run from the length that is enough at the medians to that which is enough nine times in ten. Beside each name stands the temperature of the air, and up to which a strand of it holds.",
		len(l.Survey.Suits.Soaked), counts[suits.AsItIs], table.Length(l.Survey.Suits.Longest), l.Survey.Suits.Zone, counts[suits.Buildable],
		counts[suits.TooLong], counts[suits.Forbidden], unanswered)
}
