package scenarios

import (
	"slices"
	"strings"

	"strandry/diffusion"
)

// DoubtsOf are those [[uncertain]] of the scenario that act on a strand that sets off otherwise than the scenario's: in doubt are its diameter;
// if it is of the scenario's own material, the properties; and if it runs the scenario's path, feed, zones and room.
func (s *Scenario) DoubtsOf(own, path bool) []diffusion.Given {
	return slices.DeleteFunc(slices.Clone(s.Given), func(g diffusion.Given) bool {
		switch {
		case g.Name == "strand.diameter":
			return false
		case strings.HasPrefix(g.Name, propertyPath+"."):
			return !own
		case strings.HasPrefix(g.Name, "strand."):
			return true
		}
		return !path
	})
}
