package page

import (
	"strings"

	"strandry/plots/table"
)

// checks is what was weighed at the machine beside the model.
func (l *Log) checks() []block {
	g := &grid{Heads: table.CheckHeads()}
	var says []string
	for i := range l.Answer.Checks {
		c := &l.Answer.Checks[i]
		says = append(says, c.Title+": "+strings.Join(table.CheckSays(c), " "))
		if len(c.Comparisons) == 0 {
			continue
		}
		g.Rows = append(g.Rows, line{Group: table.CheckTitle(c)})
		for k := range c.Comparisons {
			g.add(table.CheckCells(&c.Comparisons[k])...)
		}
	}
	blocks := []block{text("Pieces of strand were weighed at the machine as it was built, and are set against the model.")}
	if len(g.Rows) > 0 {
		blocks = append(blocks, block{Grid: g}, text(table.CheckCaption))
	}
	return append(blocks, block{List: says})
}
