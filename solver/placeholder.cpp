namespace barwright::solver {}
