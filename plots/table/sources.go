package table

import (
	"fmt"
	"strings"

	"strandry/materials"
)

// Sources lists where the values of a polymer that a run uses come from: one text
// for each source, "properties: source [kind]".
func Sources(p *materials.Polymer) []string {
	var order []string
	grouped := map[string][]string{}
	for _, l := range lines(p) {
		if !l.used {
			continue
		}
		from := origin(l.value.Kind, l.value.Source)
		if grouped[from] == nil {
			order = append(order, from)
		}
		grouped[from] = append(grouped[from], l.name+" "+l.text)
	}
	for i, from := range order {
		order[i] = strings.Join(grouped[from], "; ") + ": " + from
	}
	return order
}

// origin is a source with the kind of knowledge, unless it begins or ends with that.
func origin(k materials.Kind, source string) string {
	switch {
	case source == "":
		return kind(k)
	case strings.HasPrefix(source, kind(k)), strings.HasSuffix(source, kind(k)):
		return source
	}
	return fmt.Sprintf("%s [%s]", source, kind(k))
}

// kind says in words what sort of knowledge a number is.
func kind(k materials.Kind) string {
	switch k {
	case materials.Published:
		return "published"
	case materials.PublishedAbstract:
		return "published, abstract read"
	case materials.PublishedWeak:
		return "published without review"
	case materials.Memory:
		return "from memory"
	case materials.Practice:
		return "common practice"
	case materials.Given:
		return "given"
	case materials.Fitted:
		return "fitted to weighings of the strand"
	}
	return k.String()
}

// Sources lists those of the values and of the film correlations.
func (a *Answer) Sources() []string {
	out := Sources(&a.Design.Material)
	seen := map[string]bool{}
	for _, z := range a.Assessment.Zones {
		c := z.Film
		if c.Source == "" || seen[c.Correlation] {
			continue
		}
		seen[c.Correlation] = true
		out = append(out, fmt.Sprintf("film, %s: %s", c.Correlation, c.Source))
	}
	return out
}

func (a *Answer) sources(b *strings.Builder) {
	b.WriteString("\nSources of the values used\n")
	for _, s := range a.Sources() {
		paragraph(b, "  - ", s)
	}
}
