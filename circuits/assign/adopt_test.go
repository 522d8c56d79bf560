package assign_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/circuits"
	"branchwork/circuits/assign"
	"branchwork/circuits/judge"
	"branchwork/circuits/verify"
	"branchwork/codes"
	"branchwork/loads/inventory"
)

// What was planned, written into the file as built, breaks nothing that the plan
// did not.
func TestAPlanWrittenAsBuiltIsJudgedTheSame(t *testing.T) {
	files, err := filepath.Glob("../../testdata/sites/*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	p := profile()
	for _, f := range files {
		src, err := os.ReadFile(f)
		require.NoError(t, err)
		inv, problems := inventory.Read(f, src, inventory.Vocabulary{})
		require.Empty(t, problems, f)
		planned := plan(t, inv)
		before := broken(judge.Plan(inv, build(inv, p), p, &planned))

		out, err := inventory.Rewrite(src, circuits.Adopt(planned))
		require.NoError(t, err, f)
		inv, problems = inventory.Read(f, out, inventory.Vocabulary{})
		require.Empty(t, problems, f)
		set := build(inv, p)
		built, err := assign.AsBuilt(inv, set, p)
		require.NoError(t, err)
		assert.Empty(t, verify.Plan(inv, set, p, built))
		assert.Equal(t, len(planned.Circuits), len(built.Circuits), f)
		assert.Empty(t, built.Unfed, f)
		assert.Subset(t, before, broken(judge.Plan(inv, set, p, &built)), f)
	}
}

func broken(list []codes.Finding) []string {
	out := []string{}
	for _, f := range list {
		if f.Severity == codes.Violation {
			out = append(out, f.Rule+" "+f.Subject)
		}
	}
	return out
}
