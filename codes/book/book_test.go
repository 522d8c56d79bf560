package book_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes/book"
)

func TestProfilesByName(t *testing.T) {
	names := book.Names()
	assert.Subset(t, names, []string{"nec-2017", "nec-2020", "nec-2023", "nec-2026"})
	for _, n := range names {
		p, ok := book.Profile(n)
		require.True(t, ok)
		assert.Equal(t, n, p.Name)
	}
	p, ok := book.Profile("")
	require.True(t, ok)
	assert.Equal(t, book.Default, p.Name)
	_, ok = book.Profile("nec-1999")
	assert.False(t, ok)
}
