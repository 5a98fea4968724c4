module keelroom

go 1.26.8

require (
	github.com/andybalholm/brotli v1.2.8
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/maxence-charriere/go-app/v10 v10.1.11
	github.com/paulmach/orb v0.14.0
	github.com/tidwall/geodesic v0.3.5
	github.com/tidwall/rtree v1.10.0
	github.com/twpayne/go-geom v1.7.0
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/google/uuid v1.6.0 // indirect
	github.com/tidwall/geoindex v1.7.0 // indirect
)
