package judge_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits/judge"
)

// That the file wants a circuit for a load alone is no rule of the code by itself.
func TestAWishOfTheFileIsNotCalledTheCodes(t *testing.T) {
	p := defaultProfile(t)
	text, ok := read(t, p, "dedicated-equipment", "broken.toml")
	require.True(t, ok)
	s := planned(t, "broken.toml", text, p)
	found := of("dedicated-equipment", judge.Plan(s.inv, s.set, p, &s.plan))
	require.Len(t, found, 1)
	assert.Contains(t, found[0].Message, "which the code asks where its maker's instructions do")
}
