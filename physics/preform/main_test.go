package preform

import (
	"testing"

	"costrel/num/numtest"
)

func TestMain(m *testing.M) { numtest.Main(m) }
