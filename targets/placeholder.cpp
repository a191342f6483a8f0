namespace barwright::targets {}
