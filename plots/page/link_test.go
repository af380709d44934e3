package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What GitHub Flavored Markdown makes a link of without being asked (its section "Autolinks (extension)"), and no
// renderer does within code.
func TestAddressesBecomeNoLinks(t *testing.T) {
	addresses := []string{
		"https://example.org", "HTTP://example.org/a_b?c=*d*", "ftp://example.org", "www.example.org", "(www.example.org)", "me@example.org",
		"mailto:me@example.org", "xmpp:me@example.org/x", "see:https://example.org`;x`", "`https://example.org`", "https://example.org/a|b",
	}
	d := made()
	d.Title = "A strand " + strings.Join(addresses, " ") + " end"
	d.Sections[0].Blocks = append(d.Sections[0].Blocks, text(d.Title), block{Facts: []fact{{d.Title, d.Title}}})
	head, _, _ := strings.Cut(string(markdown(t, d)), "\n")
	require.Equal(t, []string{"#", "Build", "log:", "A", "strand", "end"}, strings.Fields(withoutCode(head)))
	require.Contains(t, head, "`https://example.org`")
	require.Contains(t, head, "`` see:https://example.org`;x` ``")
	for _, line := range strings.Split(string(markdown(t, d)), "\n") {
		if !strings.Contains(line, "title =") {
			require.NotContains(t, withoutCode(line), "://")
		}
	}

	page, err := htmlOf(d)
	require.NoError(t, err)
	all, words := elements(t, page)
	require.Contains(t, words, "A strand https://example.org")
	for _, e := range all {
		require.NotContains(t, e.attributes["href"], "example")
	}
}

// withoutCode takes the code spans out of a line: what lies between two runs of as many backticks.
func withoutCode(line string) string {
	var out strings.Builder
	for line != "" {
		before, rest, found := strings.Cut(line, "`")
		out.WriteString(before)
		if !found {
			break
		}
		run := 1 + len(rest) - len(strings.TrimLeft(rest, "`"))
		_, after, closed := strings.Cut(rest[run-1:], strings.Repeat("`", run))
		if !closed {
			return out.String() + "`" + rest
		}
		line = after
	}
	return out.String()
}
