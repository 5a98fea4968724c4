module keelroom/testdata/bench

go 1.26.8

require (
	github.com/maxence-charriere/go-app/v10 v10.1.11
	github.com/paulmach/orb v0.14.0
	keelroom v0.0.0
)

replace keelroom => ../..

require (
	github.com/google/uuid v1.6.0 // indirect
	github.com/tidwall/geodesic v0.3.5 // indirect
	github.com/tidwall/geoindex v1.7.0 // indirect
	github.com/tidwall/rtree v1.10.0 // indirect
	github.com/twpayne/go-geom v1.7.0 // indirect
)
