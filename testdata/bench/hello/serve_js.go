package main

func serve() {}
